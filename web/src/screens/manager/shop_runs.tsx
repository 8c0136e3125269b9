import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ShopRunRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount, many, money } from "../../words/amounts";
import { dayName, moment } from "../../words/time";
import { Photos } from "../shared/photos";

/** Who went to which shop, what was paid and bought, with the receipts: the petty cash week by week. */
export function ShopRuns() {
  const report = useReport<ShopRunRow>("shop-runs");
  return (
    <Place title="Petty cash" under="Shop runs of the last quarter, week by week">
      <Shown report={report} what="Looking for shop runs">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>Nobody went to a shop.</Nothing>
          ) : (
            <div class="stack narrow">
              {[...new Set(rows.map(({ week }) => week))].map((week) => (
                <Week
                  key={week}
                  week={week}
                  runs={rows.filter((row) => row.week === week)}
                  zone={zone}
                />
              ))}
            </div>
          )
        }
      </Shown>
    </Place>
  );
}

function Week({ week, runs, zone }: { week: string; runs: ShopRunRow[]; zone: string }) {
  return (
    <section class="stack" aria-label={`Week of ${dayName(week)}`}>
      <div class="row ends base">
        <h2>Week of {dayName(week)}</h2>
        <strong class="figure">{paidWords(runs)}</strong>
      </div>
      {runs.map((run) => (
        <Run key={run.run} run={run} zone={zone} />
      ))}
    </section>
  );
}

/** What was paid in a week; of a run whose total nobody said, that is told. */
function paidWords(runs: ShopRunRow[]): string {
  const totals = runs.flatMap(({ total }) => (total ? [total] : []));
  const unknown = runs.length - totals.length;
  const more = unknown > 0 ? `${many(unknown, "total")} not known` : "";
  const [first] = totals;
  if (!first) return more;
  const minor = totals.reduce((sum, total) => sum + total.minor, 0);
  const sum = money({ minor, currency: first.currency });
  return more ? `${sum}, ${more}` : sum;
}

function Run({ run, zone }: { run: ShopRunRow; zone: string }) {
  return (
    <article class="card stack">
      <header class="stack tight">
        <div class="row ends base">
          <h3>{run.shop}</h3>
          <strong class="figure">{run.total ? money(run.total) : "total not known"}</strong>
        </div>
        <span class="soft small">
          {run.person}, {moment(run.at, zone, now.value)}
        </span>
      </header>
      {run.lines.length > 0 && (
        <ul class="lines" aria-label="Bought">
          {run.lines.map((line) => (
            <li key={line.label} class="row ends base">
              <span>
                {line.item}
                {line.counted && `, ${amount(line.quantity)}`}{" "}
                <span class="soft small">{line.label}</span>
              </span>
              <span class="figure">{line.cost ? money(line.cost) : "cost not known"}</span>
            </li>
          ))}
        </ul>
      )}
      {run.others.length > 0 && <p>Besides: {run.others.join("; ")}.</p>}
      {run.photos.length > 0 && <Photos ids={run.photos} of={`receipt of ${run.shop}`} />}
    </article>
  );
}
