import { useSignal } from "@preact/signals";
import type { ExpectedLine, ExpectedRow } from "../../door/rows";
import { ActBar, Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { useGiving } from "../../parts/giving";
import { Wrong } from "../../parts/said";
import { amount, isNothing, many } from "../../words/amounts";
import { noteLeft } from "./driver_left";

/** What is still awaited, told line by line before the driver is let go, and the one key for it. */
export function DriverLeaves({ order, onBack }: { order: ExpectedRow; onBack: () => void }) {
  const driver = useSignal("");
  const { busy, answer, decide } = useGiving();
  const short = order.lines.filter((line) => !isNothing(line.outstanding) || !line.counted);
  const leave = async () => {
    const name = driver.value.trim();
    const body = { order: order.order, ...(name ? { driver: name } : {}) };
    const given = await decide("close_delivery", body);
    if (given.outcome === "refused" || given.outcome === "conflict") return;
    const kept = given.outcome === "kept" ? (given.problem?.detail ?? null) : null;
    noteLeft({ order: order.order, command: given.id ?? "", short: short.map(shortWords), kept });
    onBack();
  };
  return (
    <>
      <Place title="The driver leaves" under={order.supplier}>
        <p>
          {many(short.length, "line")} of {order.supplier} {short.length === 1 ? "is" : "are"} still
          awaited. Without them a credit is expected, and the chef hears at once.
        </p>
        <ul class="lines" aria-label="Not here">
          {short.map((line) => (
            <li key={line.pack_id} class="row ends base">
              <strong>{line.item}</strong>
              <span class="figure">{line.counted ? amount(line.outstanding) : "not here"}</span>
            </li>
          ))}
        </ul>
        <Field
          label="Driver's name"
          hint="If you like: it helps to settle the credit."
          value={driver}
        />
        {order.drivers.length > 0 && (
          <div class="row">
            {order.drivers.map((name) => (
              <Button
                key={name}
                pressed={driver.value === name}
                onClick={() => {
                  driver.value = name;
                }}
              >
                {name}
              </Button>
            ))}
          </div>
        )}
        {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      </Place>
      <ActBar>
        <Button onClick={onBack}>Not yet</Button>
        <Button kind="main" onClick={() => void leave()} disabled={busy.value}>
          The driver has left
        </Button>
      </ActBar>
    </>
  );
}

function shortWords(line: ExpectedLine): string {
  return line.counted ? `${amount(line.outstanding)} ${line.item}` : line.item;
}
