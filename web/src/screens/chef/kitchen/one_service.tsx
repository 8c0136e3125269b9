import "../../../look/kitchen.css";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { ServingRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { serviceName } from "../../../parts/day_words";
import { type Doing, undoOf, useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { NotFor } from "../../../parts/not_for";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { dishName, sentence } from "../../../words/menus";
import { clock, dayName, moment } from "../../../words/time";
import { LeftOvers } from "./left_overs";
import { ToServe } from "./to_serve";

/** One meal: as planned with one key, or what was otherwise; then what was left over. */
export function OneService({ id }: { id: string }) {
  const report = useReport<ServingRow>("serving");
  const doing = useDoing(`/serving/${id}`);
  const said = report.said.value;
  const row = said?.rows.find(({ service }) => service === id);
  if (said && row?.state === "confirmed") {
    return <ToServe row={row} zone={said.zone} doing={doing} />;
  }
  return (
    <Place
      title={sentence(serviceName(id))}
      under={said && row && <UnderName row={row} zone={said.zone} />}
    >
      <Done doing={doing} />
      <Shown report={report} what="Looking at what is served">
        {(_, zone) =>
          row ? (
            <WasServed row={row} zone={zone} doing={doing} />
          ) : (
            <Nothing>This meal is not to be served today, and nothing of it is open.</Nothing>
          )
        }
      </Shown>
      <p>
        <Link class="touch" to="/serving">
          All meals of today
        </Link>
      </p>
    </Place>
  );
}

export function UnderName({ row, zone }: { row: ServingRow; zone: string }) {
  return (
    <>
      {dayName(row.date, true)} {clock(row.at, zone)}, {many(row.covers, "cover")}
    </>
  );
}

interface WasServedProps {
  row: ServingRow;
  zone: string;
  doing: Doing;
}

function WasServed({ row, zone, doing }: WasServedProps) {
  const words = serviceName(row.service);
  const { done } = row;
  return (
    <>
      <section class="stack tight narrow" aria-label="Served">
        <div class="row ends base">
          <h2>✓ Served</h2>
          {done && (
            <Button
              onClick={() => void doing.undo(undoOf(done.command, doing.place, words))}
              disabled={doing.busy.value || row.left_overs.length > 0}
            >
              Undo<span class="unseen"> {words} was served</span>
            </Button>
          )}
        </div>
        {done && (
          <p class="soft">
            written down {moment(done.at, zone, now.value)} by {done.person}
            {row.left_overs.length > 0 && "; to take it back, take the left-overs back first"}
          </p>
        )}
        <ul class="lines">
          {row.dishes.map((dish) => (
            <li key={dish.dish + dish.variant} class="row ends base">
              <span class="stack tight">
                {dishName(dish)}
                {dish.conflicts.map((each) => (
                  <NotFor
                    key={each.person + each.cannot_eat}
                    against={each}
                    dish={dishName(dish)}
                    state={row.state}
                    zone={zone}
                  />
                ))}
              </span>
              <span class="figure">
                {dish.served === 0 ? "not served" : many(dish.served ?? dish.portions, "portion")}
                {dish.served !== null && dish.served > 0 && ` of ${dish.portions}`}
              </span>
            </li>
          ))}
        </ul>
      </section>
      <LeftOvers row={row} zone={zone} doing={doing} />
    </>
  );
}
