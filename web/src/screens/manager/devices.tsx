import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { attempted, type Problem } from "../../door/problem";
import { useReport } from "../../door/reports";
import { ask } from "../../door/request";
import type { DeviceOf } from "../../door/rows";
import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Nothing, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { many } from "../../words/amounts";
import { moment } from "../../words/time";
import { NewDevice } from "./new_device";

/** The phones of the house: who uses each, what it still holds, and taking a lost one out. */
export function Devices() {
  const report = useReport<DeviceOf>("devices");
  return (
    <section class="stack narrow" aria-label="Phones of the house">
      <h2>Phones of the house</h2>
      <Shown report={report} what="Looking for the phones">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>No phone belongs to the house yet. Make a code for one.</Nothing>
          ) : (
            <ul class="lines">
              {rows.map((row) => (
                <li key={row.id}>
                  <Device row={row} zone={zone} again={report.again} />
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
      <NewDevice />
    </section>
  );
}

function Device(props: { row: DeviceOf; zone: string; again: () => Promise<void> }) {
  const { row, zone, again } = props;
  const problem = useSignal<Problem | null>(null);
  const unlock = async () => {
    problem.value = await attempted(() => ask<void>("/api/devices/unlock", { device: row.id }));
    await again();
  };
  const heard = row.heard_at
    ? `last heard of ${moment(row.heard_at, zone, now.value)}`
    : "not heard of yet";
  return (
    <div class="stack tight">
      <div class="row ends base">
        <strong>{row.name}</strong>
        <span class="soft small">{row.revoked ? `taken out, ${heard}` : heard}</span>
      </div>
      {row.people.length > 0 && <span>Used by {row.people.join(", ")}</span>}
      {row.unsent > 0 && (
        <strong>
          {row.name}: {many(row.unsent, "record")} not handed in yet
        </strong>
      )}
      {row.locked && !row.revoked && <strong>Locked: too many wrong PINs in a row</strong>}
      {!row.revoked && (
        <>
          {row.locked && (
            <div>
              <Button onClick={() => void unlock()}>
                Unlock<span class="unseen"> {row.name}</span>
              </Button>
            </div>
          )}
          <Lost row={row} again={again} />
        </>
      )}
      {problem.value && <Wrong problem={problem.value} />}
    </div>
  );
}

/** A lost phone cannot be taken in again without a new code, so what comes of it is said first. */
function Lost({ row, again }: { row: DeviceOf; again: () => Promise<void> }) {
  const open = useSignal(false);
  const { busy, answer, decide } = useGiving();
  const revoke = async () => {
    await decide("revoke_device", { device: row.id });
    await again();
  };
  if (!open.value) {
    return (
      <div>
        <Button
          onClick={() => {
            open.value = true;
          }}
        >
          Lost<span class="unseen"> {row.name}</span>
        </Button>
      </div>
    );
  }
  return (
    <div class="said due">
      <span>
        Whoever has {row.name} is out at once, and reads nothing more. What it still holds is handed
        in for you to look at, should it reach the house. To use it again it needs a new code.
      </span>
      <div class="row">
        <Button kind="main" disabled={busy.value} onClick={() => void revoke()}>
          Revoke {row.name}
        </Button>
        <Button
          onClick={() => {
            open.value = false;
          }}
        >
          Keep it
        </Button>
      </div>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
    </div>
  );
}
