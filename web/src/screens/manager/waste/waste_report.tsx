import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { WasteRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { Choice } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { dayName, dayOf } from "../../../words/time";
import { Bars } from "./bars";
import { grouped, mondayBefore, type Sum, weeksOf } from "./lost";
import { Sums } from "./sums";
import { WithoutBatch } from "./without_batch";

const SPANS = [
  { value: "4", label: "4 weeks" },
  { value: "12", label: "12 weeks" },
  { value: "52", label: "52 weeks" },
];

/** What was lost: week by week, the largest first, by reason, item, place and destination. */
export function WasteReport() {
  const weeks = useSignal("12");
  const today = dayOf(new Date(now.value), me.value?.house.zone ?? "UTC");
  const from = mondayBefore(today, Number(weeks.value));
  const report = useReport<WasteRow>("waste", { from });
  return (
    <Place title="What was lost" under={`Since ${dayName(from)}, at what the batches cost`}>
      <Choice legend="Look back" value={weeks} options={SPANS} />
      <Shown report={report} what="Adding up">
        {(rows) =>
          rows.length === 0 ? <Nothing>Nothing is recorded as lost.</Nothing> : <Told rows={rows} />
        }
      </Shown>
      <p>
        <a class="touch" href={`/api/reports/waste.csv?from=${from}`} download>
          As a sheet (CSV)
        </a>
      </p>
      <WithoutBatch from={from} />
    </Place>
  );
}

const BY: Record<string, (row: WasteRow) => string> = {
  reason: ({ reason }) => reason,
  item: ({ item }) => item,
  place: ({ area }) => area ?? "the kitchen",
  "goes to": ({ destination }) => destination,
};

function Told({ rows }: { rows: WasteRow[] }) {
  const by = useSignal("reason");
  const largest: Sum[] = grouped(rows, ({ item, reason }) => `${item}, ${reason}`).slice(0, 5);
  return (
    <div class="columns">
      <Bars weeks={weeksOf(rows)} />
      <div class="stack">
        <section class="stack tight" aria-label="The largest">
          <h2>The largest</h2>
          <Sums sums={largest} of="What, and why" />
        </section>
        <section class="stack tight" aria-label="All of it">
          <h2>All of it</h2>
          <Choice
            legend="By"
            value={by}
            options={Object.keys(BY).map((name) => ({ value: name, label: name }))}
          />
          <Sums sums={grouped(rows, BY[by.value] ?? (({ reason }) => reason))} of={by.value} />
        </section>
      </div>
    </div>
  );
}
