import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { CoverageRow } from "../../door/rows";
import { me } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { dayOf, near } from "../../words/time";

/** Which meals a batch is promised to, for who plans them. */
export function PromisedTo({ batch }: { batch: string }) {
  const report = useReport<CoverageRow>("coverage");
  const mark = me.value?.house.decimal_mark ?? ".";
  return (
    <section class="stack tight" aria-labelledby="promised">
      <h2 id="promised">Promised to</h2>
      <Shown report={report} what="Looking at the menus">
        {(rows, zone) => {
          const given = rows.flatMap((row) =>
            row.from
              .filter((from) => from.batch === batch && row.state === "confirmed")
              .map(({ quantity }) => ({ row, quantity })),
          );
          if (given.length === 0) return <Nothing>No meal.</Nothing>;
          return (
            <ul class="lines">
              {given.map(({ row, quantity }) => (
                <li key={`${row.service} ${row.course} ${row.dish} ${row.for}`}>
                  <span class="row ends">
                    <span>
                      {row.dish}, {serviceName(row.service)}{" "}
                      {near(row.service.split("/")[0] ?? "", dayOf(new Date(now.value), zone))}
                    </span>
                    <span class="figure">{amount(quantity, mark)}</span>
                  </span>
                </li>
              ))}
            </ul>
          );
        }}
      </Shown>
    </section>
  );
}
