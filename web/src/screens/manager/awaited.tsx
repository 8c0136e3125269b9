import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Problem, problemOf } from "../../door/problem";
import { useReport } from "../../door/reports";
import { ask } from "../../door/request";
import type { AwaitedRow } from "../../door/rows";
import type { Wire } from "../../door/wire";
import { Button } from "../../parts/button";
import { Wrong } from "../../parts/said";
import { moment } from "../../words/time";

/** Which phones have not handed in since the house was restored; nothing where there is none. */
export function Awaited() {
  const report = useReport<AwaitedRow>("awaited");
  const said = report.said.value;
  if (!said || said.rows.length === 0) return null;
  const waits = said.rows.some((row) => row.went_on_at === null);
  return (
    <section class="card stack narrow">
      <h2>Awaited since the restore</h2>
      <p>
        {waits
          ? "The house was restored from a backup. Until these have handed in what they hold, it can be read, and takes nothing new. On each of them, come in and stay near the house for a minute."
          : "The house has gone on without these. What they still hold is taken in late, when they come."}
      </p>
      <ul class="lines">
        {said.rows.map((row) => (
          <li key={row.device}>
            <One row={row} zone={said.zone} again={report.again} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function One(props: { row: AwaitedRow; zone: string; again: () => Promise<void> }) {
  const { row, zone, again } = props;
  const problem = useSignal<Problem | null>(null);
  const goOn = async () => {
    problem.value = null;
    try {
      await ask<Wire["WentOn"]>("/api/devices/go-on", { device: row.device });
      await again();
    } catch (error) {
      problem.value = problemOf(error);
    }
  };
  const when = moment(row.went_on_at ?? row.since, zone, now.value);
  return (
    <div class="stack tight">
      <div class="row ends base">
        <strong>{row.name}</strong>
        <span class="soft small">
          {row.went_on_at ? `gone on without, ${when}` : `since ${when}`}
        </span>
      </div>
      {row.went_on_at === null && (
        <div class="row">
          <Button onClick={() => void goOn()}>Go on without {row.name}</Button>
        </div>
      )}
      {problem.value && <Wrong problem={problem.value} />}
    </div>
  );
}
