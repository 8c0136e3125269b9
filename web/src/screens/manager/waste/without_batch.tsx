import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { WasteWithoutBatchRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount, many } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { Photos } from "../../shared/photos";
import { weighed } from "./lost";

/** What came back from the table or stood in no batch: apart, since it has left the stock some other way. */
export function WithoutBatch({ from }: { from: string }) {
  const report = useReport<WasteWithoutBatchRow>("waste-without-batch", { from });
  return (
    <section class="stack tight" aria-label="Without a batch">
      <h2>From the table, or of no known batch</h2>
      <p class="soft small">
        No cost stands here: what was served is accounted for as served, and what stood without a
        label the next count finds missing.
      </p>
      <Shown report={report} what="Adding up">
        {(rows) =>
          rows.length === 0 ? <Nothing>Nothing of it is recorded.</Nothing> : <Told rows={rows} />
        }
      </Shown>
      <p>
        <a class="touch" href={`/api/reports/waste-without-batch.csv?from=${from}`} download>
          What stood in no batch as a sheet (CSV)
        </a>
      </p>
    </section>
  );
}

function Told({ rows }: { rows: WasteWithoutBatchRow[] }) {
  const zone = me.value?.house.zone ?? "UTC";
  const mark = me.value?.house.decimal_mark ?? ".";
  const { grams, unweighed } = weighed(rows);
  const known = amount({ value: grams, unit: "g" }, mark);
  return (
    <>
      <p>
        <strong>{known}</strong> in all
        {unweighed > 0 && `, and ${many(unweighed, "record")} that nobody can weigh`}
      </p>
      <ul class="lines">
        {[...rows].reverse().map((row) => (
          <li key={row.command} class="stack tight">
            <span class="row ends base">
              <span>{row.what}</span>
              <span class="figure">{howMuch(row, mark)}</span>
            </span>
            <span class="soft small">
              {moment(row.at, zone, now.value)}: {row.reason}, to {row.destination}
            </span>
            {row.photos.length > 0 && <Photos ids={row.photos} of={row.what} />}
          </li>
        ))}
      </ul>
    </>
  );
}

function howMuch({ quantity, dish_id }: WasteWithoutBatchRow, mark: string): string {
  if (quantity.unit !== "each" || dish_id === null) return amount(quantity, mark);
  return many(Number(quantity.value), "plate");
}
