import "../../look/menus.css";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { DishRow, UseFirstRow } from "../../door/rows";
import { mayGive, mayRead } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { DaysLeft, type DaysLeftKind } from "../../parts/days_left";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { dayOf, near } from "../../words/time";
import { type CouldUse, couldUse } from "./could_use";

/** What dies soon and is promised to nobody, the soonest first, and the dishes that could use it. */
export function UseFirst() {
  const report = useReport<UseFirstRow>("use-first");
  return (
    <Place title="Use first" under="What ends within a fortnight and is promised to nobody">
      <Shown report={report} what="Looking along the shelves">
        {(rows, zone) => {
          const dead = rows.filter((row) => row.past === "usable_until");
          const left = rows.filter((row) => row.past !== "usable_until");
          return (
            <>
              {dead.length > 0 && (
                <section class="stack tight" aria-label="Not to be used any more">
                  <h2>Not to be used any more</h2>
                  <ul class="lines">
                    {dead.map((row) => (
                      <Batch key={row.batch} row={row} zone={zone} />
                    ))}
                  </ul>
                </section>
              )}
              {left.length === 0 ? (
                <Nothing>Nothing that is free ends within a fortnight.</Nothing>
              ) : mayRead("dishes") ? (
                <WithDishes rows={left} zone={zone} />
              ) : (
                <Batches rows={left} zone={zone} dishes={[]} />
              )}
            </>
          );
        }}
      </Shown>
    </Place>
  );
}

function WithDishes({ rows, zone }: { rows: UseFirstRow[]; zone: string }) {
  const dishes = useReport<DishRow>("dishes").said.value?.rows ?? [];
  return <Batches rows={rows} zone={zone} dishes={dishes} />;
}

function Batches(props: { rows: UseFirstRow[]; zone: string; dishes: DishRow[] }) {
  return (
    <ul class="lines use-first">
      {props.rows.map((row) => (
        <Batch key={row.batch} row={row} zone={props.zone}>
          <Uses uses={couldUse(row)} zone={props.zone} dishes={props.dishes} />
        </Batch>
      ))}
    </ul>
  );
}

interface BatchProps {
  row: UseFirstRow;
  zone: string;
  children?: preact.ComponentChildren;
}

function Batch({ row, zone, children }: BatchProps) {
  return (
    <li class="stack tight">
      <div class="row ends base">
        <strong>{row.item}</strong>
        <span class="figure">{amount(row.available)} free</span>
      </div>
      <span class="soft">
        {row.label}, {row.area}
      </span>
      <DaysLeft until={row.usable_until ?? row.good_until} kind={kindOf(row)} zone={zone} />
      {children}
    </li>
  );
}

/** What is only flagged after its end is not said to be unusable after it. */
function kindOf({ usable_until, date_mark }: UseFirstRow): DaysLeftKind {
  if (usable_until) return date_mark;
  return date_mark === "best_before" ? "best_before" : "at_its_best";
}

interface UsesProps {
  uses: CouldUse[];
  zone: string;
  dishes: DishRow[];
}

const SHOWN = 3;

function Uses({ uses, zone, dishes }: UsesProps) {
  if (uses.length === 0) return <span>No approved dish of the season uses it.</span>;
  return (
    <>
      <UseList uses={uses.slice(0, SHOWN)} zone={zone} dishes={dishes} />
      {uses.length > SHOWN && (
        <details>
          <summary>{uses.length - SHOWN} more that could use it</summary>
          <UseList uses={uses.slice(SHOWN)} zone={zone} dishes={dishes} />
        </details>
      )}
    </>
  );
}

function UseList({ uses, zone, dishes }: UsesProps) {
  const today = dayOf(new Date(now.value), zone);
  return (
    <ul class="uses">
      {uses.map(({ dish, services }) => {
        const id = dishes.find((row) => row.dish === dish)?.id;
        const [first] = services;
        return (
          <li key={dish}>
            <span>
              {dish}
              {first && (
                <span class="soft">
                  {" "}
                  on the menu {near(first.slice(0, 10), today)}, {serviceName(first)}
                </span>
              )}
            </span>
            {first && mayRead("menus") && (
              <Link class="touch" to={`/menus/${first}`}>
                See the menu<span class="unseen"> with {dish}</span>
              </Link>
            )}
            {!first && id && mayGive("propose") && (
              <Link class="touch" to={`/menus/propose/${id}`}>
                Propose it<span class="unseen">: {dish}</span>
              </Link>
            )}
          </li>
        );
      })}
    </ul>
  );
}
