import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { CoolingRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Field } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { degrees, shownDegrees, tenths } from "../../words/temperature";
import { moment } from "../../words/time";

/** What cools now: the next temperature by when, and the key to write one down. */
export function Cooling() {
  const report = useReport<CoolingRow>("cooling");
  const doing = useDoing("/round/cooling");
  return (
    <Place title="What cools now" under="Cooked food, from hot to cold in stages">
      <div class="stack narrow">
        <Done doing={doing} />
        <Shown report={report} what="Looking at what cools">
          {(rows, zone) =>
            rows.length === 0 ? (
              <Nothing>Nothing cools. What the kitchen makes stands here while it is hot.</Nothing>
            ) : (
              rows.map((row) => <One key={row.batch} row={row} zone={zone} doing={doing} />)
            )
          }
        </Shown>
        <Link class="touch" to="/round">
          All cold places
        </Link>
      </div>
    </Place>
  );
}

interface OneProps {
  row: CoolingRow;
  zone: string;
  doing: Doing;
}

function One({ row, zone, doing }: OneProps) {
  const typed = useSignal("");
  const temperature_c = degrees(typed.value);
  const record = async () => {
    if (temperature_c === null) return;
    const words = `${row.item} ${row.label}, ${shownDegrees(typed.value, "C")}`;
    const { outcome } = await doing.act("cool", { batch: row.batch, temperature_c }, words);
    if (outcome === "applied" || outcome === "saved") typed.value = "";
  };
  return (
    <article class="card stack" aria-label={row.item}>
      <header class="stack tight">
        <h2>
          {row.item} <span class="soft">{row.label}</span>
        </h2>
        <p role="status">{standsWords(row, zone)}</p>
        {row.readings.length > 0 && (
          <ul class="soft" aria-label="Readings">
            {row.readings.map((each) => (
              <li key={each.command}>
                {shownDegrees(each.temperature_c, "C")}, {moment(each.at, zone, now.value)},{" "}
                {each.person}
              </li>
            ))}
          </ul>
        )}
      </header>
      {row.outcome !== "passed" && (
        <>
          <Field
            label="What the probe shows, °C"
            value={typed}
            inputMode="decimal"
            enterKeyHint="done"
            big
          />
          <Button
            onClick={() => void record()}
            disabled={tenths(typed.value) === null || doing.busy.value}
          >
            Save this temperature
          </Button>
        </>
      )}
      <p class="soft small">{row.caution}</p>
    </article>
  );
}

function standsWords(row: CoolingRow, zone: string): string {
  const to = shownDegrees(row.to_c ?? row.stages[0]?.to_c ?? "", "C");
  switch (row.outcome) {
    case "unread":
      return `Nobody has taken its temperature yet. Take it now, while it is hot. ${stagesWords(row)}`;
    case "running":
      return row.by
        ? `Must be at ${to} by ${moment(row.by, zone, now.value)}.`
        : `Still hot: the clock begins at ${shownDegrees(row.from_c, "C")}. ${stagesWords(row)}`;
    case "passed":
      return "✓ It cooled in time.";
    case "failed":
      return `✕ It did not cool in time. ${row.reason ?? ""} Do not use it: the chef decides.`;
  }
}

function stagesWords({ from_c, stages }: CoolingRow): string {
  const each = stages.map(({ to, within_minutes }) => `${to} within ${within_minutes} minutes`);
  return `From ${shownDegrees(from_c, "C")} to ${each.join(", to ")}, counted from the beginning.`;
}
