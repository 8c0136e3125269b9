import "../../look/menus.css";
import type { ComponentChildren } from "preact";
import { now } from "../../door/clock";
import type { CoverageRow, MenuDish, MenuRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { NotFor } from "../../parts/not_for";
import { Opens } from "../../parts/opens";
import { amount, few, isNothing, many } from "../../words/amounts";
import {
  cautionsSaid,
  dishName,
  earlyReason,
  flagsSaid,
  standing,
  standsAs,
} from "../../words/menus";
import { moment } from "../../words/time";
import { Derived } from "./derived";
import { ItemsOf } from "./items_of";
import { RecipeKey } from "./recipe";
import { StandingMark } from "./state_mark";

interface DishLineProps {
  row: MenuRow;
  course: string;
  dish: MenuDish;
  zone: string;
  coverage: CoverageRow[] | null;
  /** Its name, or the key by which it is picked. */
  children: ComponentChildren;
}

/** A dish of a menu: how it stands, what to know of it, what it is made of. */
export function DishLine({ row, course, dish, zone, coverage, children }: DishLineProps) {
  const isOver = row.state === "served" || row.state === "taken_off";
  const rows = coverage ? rowsOf(coverage, course, dish) : [];
  const wanted = rows.filter(isShared).map(({ item }) => item);
  return (
    <div class="stack tight">
      {children}
      {coverage && <Stands row={row} dish={dish} rows={rows} zone={zone} />}
      {!coverage && !isOver && <Late row={row} dish={dish} />}
      <ul class="notes">
        {dish.conflicts.map((conflict) => (
          <li key={conflict.person + conflict.cannot_eat}>
            <NotFor against={conflict} dish={dishName(dish)} state={row.state} zone={zone} />
          </li>
        ))}
        {cautionsSaid(dish.flags).map((said) => (
          <li key={said} class="warned">
            {said}
          </li>
        ))}
        {coverage && flagsSaid(dish.flags).map((said) => <li key={said}>{said}</li>)}
        {wanted.length > 0 && (
          <li>other menus that are still to choose want its {few(wanted)}, too</li>
        )}
      </ul>
      <div class="row">
        <Items rows={rows} dish={dish} zone={zone} />
        {mayRead("dishes") && <RecipeKey dish={dish.dish} name={dish.name} />}
      </div>
    </div>
  );
}

/** What of the coverage is of this dish. */
export function rowsOf(coverage: CoverageRow[], course: string, dish: MenuDish): CoverageRow[] {
  return coverage.filter(
    (each) => each.course === course && each.dish === dish.name && each.variant === dish.variant,
  );
}

function isShared({ flags }: CoverageRow): boolean {
  return flags.some((flag) => flag.startsWith("shared_with:"));
}

interface StandsProps {
  row: MenuRow;
  dish: MenuDish;
  rows: CoverageRow[];
  zone: string;
}

function Stands({ row, dish, rows, zone }: StandsProps) {
  const stands = standing(dish, row.state, now.value);
  const isEarly = dish.choose_by !== null && dish.choose_by < row.notice_by;
  const tellsWhen = stands !== "gone" && row.state === "proposed" && dish.choose_by;
  const orderBy = row.state === "confirmed" && stands === "buy" && firstToMend(rows);
  return (
    <span class="stands-so">
      <span class={`row standing ${stands}`}>
        <StandingMark stands={stands} />
        {standsAs(dish, row.state, now.value)}
      </span>
      {orderBy && <span class="soft">order by {moment(orderBy, zone, now.value)}</span>}
      {tellsWhen && (
        <span class={isEarly ? "early" : "soft"}>
          choose by {moment(tellsWhen, zone, now.value)}
          {isEarly && `, earlier than usual, because ${earlyReason(dish)}`}
        </span>
      )}
    </span>
  );
}

function firstToMend(rows: CoverageRow[]): string | undefined {
  return rows.flatMap(({ mend_until }) => mend_until ?? []).sort()[0];
}

/** For who is not told of stock: only whether it can still be chosen. */
function Late({ row, dish }: { row: MenuRow; dish: MenuDish }) {
  if (row.state !== "proposed" || standing(dish, row.state, now.value) !== "gone") return null;
  return (
    <span class="row standing gone">
      <StandingMark stands="gone" />
      the kitchen can no longer make it for this meal
    </span>
  );
}

function Items({ rows, dish, zone }: { rows: CoverageRow[]; dish: MenuDish; zone: string }) {
  if (rows.length === 0) return null;
  const short = rows.filter((row) => !isNothing(row.short));
  return (
    <>
      <Opens figure={many(rows.length, "item")} title={`What ${dishName(dish)} needs`}>
        <ItemsOf rows={rows} zone={zone} />
      </Opens>
      {short.map((row) => (
        <Opens
          key={row.item + row.for}
          figure={`${amount(row.short)} ${row.item} short`}
          title={`${row.item} for ${dishName(dish)}`}
        >
          <Derived row={row} zone={zone} />
        </Opens>
      ))}
    </>
  );
}
