import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Answer, isGiven } from "../../door/command";
import type { FailedPlaceRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import type { Doing } from "../../parts/doing";
import { Field } from "../../parts/fields";
import { Wrong } from "../../parts/said";
import { amount } from "../../words/amounts";
import { keptWhy, verdictOf } from "../../words/failed";
import { shownDegrees } from "../../words/temperature";
import { moment } from "../../words/time";

interface FailedBatchProps {
  row: FailedPlaceRow;
  zone: string;
  doing: Doing;
  onDecided: () => void;
}

/** One batch of a place that failed: what the policy says of it, and what becomes of it. */
export function FailedBatch({ row, zone, doing, onDecided }: FailedBatchProps) {
  const ends = row.usable_until && `usable until ${moment(row.usable_until, zone, now.value)}`;
  const { mark, full } = verdictOf(row);
  return (
    <>
      <p>
        {amount(row.on_hold)} in {row.area}
        {ends && `, ${ends}`}
      </p>
      <p class={`warmth ${row.verdict === "accept" && !row.clear ? "ask" : row.verdict}`}>
        <span aria-hidden="true">{mark} </span>
        {full}
      </p>
      <p class="soft">
        {row.reason} Up to {shownDegrees(row.highest_c, "C")}, since at the earliest{" "}
        {moment(row.since, zone, now.value)}. {row.source}.
      </p>
      {row.held_for.length > 0 && (
        <p class="warmth ask">
          <span aria-hidden="true">! </span>
          It is on hold for another reason, too: {row.held_for.join("; ")}. Keeping it ends that as
          well.
        </p>
      )}
      {doing.problem.value && <Wrong problem={doing.problem.value} />}
      <Decide row={row} doing={doing} onDecided={onDecided} />
      <p class="soft small">{row.caution}</p>
    </>
  );
}

interface DecideProps {
  row: FailedPlaceRow;
  doing: Doing;
  onDecided: () => void;
}

function Decide({ row, doing, onDecided }: DecideProps) {
  const why = useSignal("");
  const words = `${row.item} ${row.label}, ${amount(row.on_hold)}`;
  const quantity = row.on_hold;
  const after = (answer: Answer) => {
    if (!isGiven(answer)) return;
    onDecided();
    // the line that was opened is gone
    document.getElementById("place")?.focus({ preventScroll: true });
  };
  const keep = async () => {
    const body = { batch: row.batch, reason: why.value.trim() || keptWhy };
    after(await doing.act("release", body, words));
  };
  const lose = async () => {
    const body = { batch: row.batch, quantity, area: row.area_id };
    after(await doing.act("waste", { ...body, reason: "too warm", destination: "bin" }, words));
  };
  const isOwnWord = row.verdict !== "accept" || row.held_for.length > 0;
  return (
    <>
      {mayGive("release") && isOwnWord && <Field label="Why it may be kept" value={why} />}
      <div class="row">
        <Button onClick={() => void lose()} disabled={doing.busy.value}>
          Throw it away
        </Button>
        {mayGive("release") && (
          <Button
            onClick={() => void keep()}
            disabled={doing.busy.value || (isOwnWord && why.value.trim() === "")}
          >
            {isOwnWord ? "Keep it, on my word" : "Keep it"}
          </Button>
        )}
      </div>
    </>
  );
}
