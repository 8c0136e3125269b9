import { now } from "../../door/clock";
import type { DishForRow, DishRow } from "../../door/rows";
import { me } from "../../door/session";
import { NotFor } from "../../parts/not_for";
import { amount, few, listed } from "../../words/amounts";
import { dishName } from "../../words/menus";
import { dayName, dayOf, moment, near, until } from "../../words/time";
import { isInSeason, seasonSaid } from "./season";

interface DishFactsProps {
  row: DishRow;
  /** What it would come to at this meal; null: the house has not said. */
  said: DishForRow | null;
  table: string;
  date: string;
  zone: string;
}

/** What helps to decide: whether it can be had, what it uses up, whom it suits, its season, when it was last. */
export function DishFacts({ row, said, table, date, zone }: DishFactsProps) {
  const last = row.last_served.find((each) => each.table === table);
  const season = seasonSaid(row);
  return (
    <span class="stack tight">
      {said && <Covering said={said} zone={zone} />}
      {said && <UsesUp said={said} zone={zone} />}
      {said?.against.map((each) => (
        <span key={`${each.person} ${each.cannot_eat}`}>
          <span aria-hidden="true">✕ </span>
          <NotFor against={each} dish={dishName(said)} state="proposed" zone={zone} />
        </span>
      ))}
      <span class="facts-of">
        {season && !isInSeason(row, date) && <strong>Out of season. </strong>}
        {season && `${season} `}
        {last ? `Last for ${table}: ${dayName(last.date)}. ` : `Not yet served to ${table}. `}
        {row.contains.length > 0 && `Contains ${listed(row.contains)}. `}
        {row.may_contain.length > 0 && `May contain ${listed(row.may_contain)}. `}
        {row.unknown.length > 0 && "Not everything in it has declared its allergens. "}
        {!row.approved && <strong>Its recipe is not approved yet. </strong>}
      </span>
    </span>
  );
}

function Covering({ said, zone }: { said: DishForRow; zone: string }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const lacks = said.lacking.map((each) => `${each.item} ${amount(each.quantity, mark)}`);
  if (said.covering === "covered") {
    return (
      <span>
        <span aria-hidden="true">✓ </span>covered by what is there
        {said.early && <ChooseEarly said={said} zone={zone} why="it takes that long to prepare" />}
      </span>
    );
  }
  if (said.covering === "to_buy") {
    return (
      <span>
        <span aria-hidden="true">! </span>to be bought: {listed(lacks)};{" "}
        {said.early ? (
          <ChooseEarly said={said} zone={zone} why={null} />
        ) : (
          said.choose_by && <>choose by {moment(said.choose_by, zone, now.value)}</>
        )}
      </span>
    );
  }
  return (
    <span>
      <span aria-hidden="true">✕ </span>
      <strong>{why(said, lacks)}</strong>
    </span>
  );
}

function why(said: DishForRow, lacks: string[]): string {
  if (said.covering === "too_late") return "too late to prepare it";
  if (said.covering === "unclear") return said.problem ?? "It cannot be worked out.";
  const gone = said.lacking.filter(
    ({ order_by }) => order_by === null || Date.parse(order_by) < now.value,
  );
  const named = gone.length > 0 ? gone.map(({ item }) => item) : lacks;
  return `cannot be had: nobody brings ${listed(named)} in time`;
}

function ChooseEarly(props: { said: DishForRow; zone: string; why: string | null }) {
  const { said, zone, why } = props;
  if (!said.choose_by) return null;
  return (
    <strong>
      {" "}
      choose early, by {moment(said.choose_by, zone, now.value)} {until(said.choose_by, now.value)}
      {why && `: ${why}`}
    </strong>
  );
}

const SOME = 3;

function UsesUp({ said, zone }: { said: DishForRow; zone: string }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const today = dayOf(new Date(now.value), zone);
  return (
    <>
      {said.dies.length > 0 && (
        <span>
          <span aria-hidden="true">○ </span>uses up{" "}
          {few(
            said.dies.map(
              ({ item, quantity, until: end, date_mark }) =>
                `${item} ${amount(quantity, mark)} (${date_mark === "use_by" ? "use by" : "until"} ${near(dayOf(end, zone), today)})`,
            ),
            SOME,
          )}
        </span>
      )}
      {said.garden.length > 0 && (
        <span>
          <span aria-hidden="true">○ </span>from the garden:{" "}
          {listed(
            said.garden.map(
              ({ item, quantity, left }) =>
                `${item} ${amount(quantity, mark)} of ${amount(left, mark)} that nobody takes yet`,
            ),
          )}
        </span>
      )}
      {said.past_best.length > 0 && (
        <span>
          <span aria-hidden="true">! </span>past its best by then: {few(said.past_best, SOME)}
        </span>
      )}
    </>
  );
}
