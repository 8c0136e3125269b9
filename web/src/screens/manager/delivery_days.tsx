import { useSignal } from "@preact/signals";
import type { SupplierRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Field, Select } from "../../parts/fields";
import { Form } from "../../parts/form";
import { useGiving } from "../../parts/giving";
import { Nothing, Wrong } from "../../parts/said";
import { capital, WEEKDAYS } from "./weekdays";

type Rule = SupplierRow["deliveries"][number];

/** On which weekdays a supplier comes, and by when orders are given: one taken away, one put to them. */
export function DeliveryDays({ row }: { row: SupplierRow }) {
  const { answer, busy, decide } = useGiving();
  const weekday = useSignal("monday");
  const at = useSignal("");
  const before = useSignal("1");
  const until = useSignal("");
  const wrong = useSignal<string | undefined>(undefined);
  const keep = async (deliveries: Rule[]) =>
    (await decide("set_calendar", { supplier: row.id, deliveries }, row.version, row.supplier))
      .problem ?? null;
  const add = () => {
    wrong.value = /^\d{1,2}$/.test(before.value.trim())
      ? undefined
      : "Write whole days, such as 1.";
    if (wrong.value) return null;
    const rule = {
      weekday: weekday.value as Rule["weekday"],
      time: at.value.trim(),
      cutoff_days_before: Number(before.value),
      cutoff_time: until.value.trim(),
    };
    return keep([...row.deliveries, rule]);
  };
  return (
    <div class="stack">
      {row.deliveries.length === 0 && <Nothing>They come on no weekday yet.</Nothing>}
      <ul class="lines" aria-label="Delivery days">
        {row.deliveries.map((rule) => (
          <li key={`${rule.weekday} ${rule.time}`} class="row ends">
            <span>{inWords(rule)}</span>
            <Button
              onClick={() => void keep(row.deliveries.filter((each) => each !== rule))}
              disabled={busy.value}
            >
              Take away <span class="unseen">{inWords(rule)}</span>
            </Button>
          </li>
        ))}
      </ul>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      <Form send={async () => add()} does="Put it to them" kind="plain">
        <Select label="Comes on" value={weekday} options={WEEKDAYS} />
        <Field label="At" value={at} hint="24-hour, such as 07:30" inputMode="numeric" required />
        <Field
          label="Orders until, days before"
          value={before}
          hint="0: the same day"
          inputMode="numeric"
          wrong={wrong.value}
          required
        />
        <Field
          label="Orders until, at"
          value={until}
          hint="24-hour, such as 17:00"
          inputMode="numeric"
          required
        />
      </Form>
    </div>
  );
}

function inWords({ weekday, time, cutoff_days_before: days, cutoff_time: cutoff }: Rule): string {
  const day = days === 0 ? "the same day" : days === 1 ? "the day before" : `${days} days before`;
  return `${capital(weekday)} ${time}, orders until ${cutoff}, ${day}`;
}
