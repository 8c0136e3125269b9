import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { FailedPlaceRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Field } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { Opens } from "../../parts/opens";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { shownDegrees } from "../../words/temperature";
import { moment } from "../../words/time";

/** What stood in a cold place that failed: on hold, until the chef has decided on each batch. */
export function FailedPlaces() {
  const report = useReport<FailedPlaceRow>("failed-places");
  const doing = useDoing("/failed-places");
  return (
    <Place title="Cold places that failed" under="On hold until you decide, batch by batch">
      <div class="stack narrow">
        <Done doing={doing} />
        <Shown report={report} what="Looking at what stood there">
          {(rows, zone) => (
            <>
              {rows.length === 0 && <Nothing>Nothing waits to be decided.</Nothing>}
              {rows.map((row) => (
                <Batch key={row.batch + row.area_id} row={row} zone={zone} doing={doing} />
              ))}
              {rows[0] && <p class="soft small">{rows[0].caution}</p>}
            </>
          )}
        </Shown>
      </div>
    </Place>
  );
}

const VERDICT: Record<FailedPlaceRow["verdict"], string> = {
  accept: "✓ Within what the policy allows",
  ask: "? The readings do not tell: you decide",
  refuse: "✕ Past what the policy allows: throw it away",
};

interface BatchProps {
  row: FailedPlaceRow;
  zone: string;
  doing: Doing;
}

function Batch({ row, zone, doing }: BatchProps) {
  const ends = row.usable_until && `usable until ${moment(row.usable_until, zone, now.value)}`;
  return (
    <article class="card stack" aria-label={row.item}>
      <header class="stack tight">
        <h2>
          {row.item} <span class="soft">{row.label}</span>
        </h2>
        <p>
          {amount(row.on_hold)} in {row.area}
          {ends && `, ${ends}`}
        </p>
        <p class={`warmth ${row.verdict}`} role="status">
          {VERDICT[row.verdict]}
        </p>
        <p class="soft">
          {row.reason} Up to {shownDegrees(row.highest_c, "C")}, since at the earliest{" "}
          {moment(row.since, zone, now.value)}. {row.source}.
        </p>
      </header>
      <Decide row={row} doing={doing} />
    </article>
  );
}

function Decide({ row, doing }: { row: FailedPlaceRow; doing: Doing }) {
  const why = useSignal("");
  const words = `${row.item} ${row.label}, ${amount(row.on_hold)}`;
  const quantity = row.on_hold;
  const keep = async () => {
    const body = { batch: row.batch, reason: why.value.trim() || "kept after its place failed" };
    const answer = await doing.act("release", body, words);
    if (isGiven(answer)) why.value = "";
  };
  const lose = () =>
    doing.act(
      "waste",
      { batch: row.batch, quantity, area: row.area_id, reason: "too warm", destination: "bin" },
      words,
    );
  return (
    <>
      <div class="row">
        <Button onClick={() => void lose()} disabled={doing.busy.value}>
          Throw it away
        </Button>
        {mayGive("release") && row.verdict === "accept" && (
          <Button onClick={() => void keep()} disabled={doing.busy.value}>
            Keep it
          </Button>
        )}
      </div>
      {mayGive("release") && row.verdict !== "accept" && (
        <Opens figure="Keep it all the same" title={`Keep ${row.item}`}>
          <div class="stack">
            <Field label="Why it may be kept" value={why} required />
            <Button
              onClick={() => void keep()}
              disabled={doing.busy.value || why.value.trim() === ""}
            >
              Keep it, on my word
            </Button>
          </div>
        </Opens>
      )}
    </>
  );
}
