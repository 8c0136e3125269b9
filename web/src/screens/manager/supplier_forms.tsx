import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type BodyOf, isGiven } from "../../door/command";
import type { SupplierRow } from "../../door/rows";
import { useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Field, Select } from "../../parts/fields";
import { Form } from "../../parts/form";
import { useGiving } from "../../parts/giving";
import { Nothing, Said } from "../../parts/said";
import { dayName, moment } from "../../words/time";

const IS_DAY = /^\d{4}-\d{2}-\d{2}$/;

/** The boat does not sail: what was ordered on it is not awaited, and what it was for is short. */
export function CallOff({ row, zone }: { row: SupplierRow; zone: string }) {
  const doing = useDoing(`supplier ${row.id}`);
  const known = new Map(
    row.coming.flatMap(({ comes_on: day, delivery }) =>
      day && delivery ? [[day, delivery] as const] : [],
    ),
  );
  const day = useSignal([...known.keys()][0] ?? "");
  const reason = useSignal("");
  const send = async () => {
    const body = { supplier: row.id, date: day.value, reason: reason.value.trim() };
    const words = `${row.supplier}, ${dayName(day.value)}`;
    await doing.act("call_off_delivery", body, words, row.version);
    // what is wrong with it stands above, where it is taken back too
    return null;
  };
  return (
    <div class="stack">
      <Done doing={doing} />
      {known.size === 0 ? (
        <Nothing>Nothing comes in the next four weeks.</Nothing>
      ) : (
        <Form send={send} does="Call it off">
          <Select
            label="Which delivery"
            value={day}
            options={[...known].map(([value, at]) => ({
              value,
              label: moment(at, zone, now.value),
            }))}
          />
          <Field
            label="Why"
            value={reason}
            hint="What was ordered on it is not awaited any more; the deadlines show what is short."
            required
          />
        </Form>
      )}
    </div>
  );
}

/** Out of season or on holiday: from one day to another nothing comes, and no orders are taken. */
export function Closed({ row }: { row: SupplierRow }) {
  const { answer, decide } = useGiving();
  const from = useSignal("");
  const to = useSignal("");
  const reason = useSignal("");
  const wrong = useSignal<string | undefined>(undefined);
  const send = async () => {
    const days = [from.value.trim(), to.value.trim()];
    wrong.value = days.every((day) => IS_DAY.test(day)) ? undefined : "Write both as 2027-05-03.";
    if (wrong.value) return null;
    const [date = "", until = ""] = days;
    const closed = { date, until, reason: reason.value.trim() };
    const others = row.closures.filter((each) => each.date !== date);
    const closures: BodyOf<"set_calendar">["closures"] = [
      ...others.map(({ called_off: _, ...each }) => each),
      { ...closed, what: "no_delivery" },
      { ...closed, what: "no_orders" },
    ];
    const body = { supplier: row.id, closures };
    return (await decide("set_calendar", body, row.version)).problem ?? null;
  };
  return (
    <Form send={send} does="Keep it" kind="plain">
      {answer.value && isGiven(answer.value) && <Said kind="done">The calendar is kept.</Said>}
      <Field label="From" value={from} hint="As 2027-05-03" inputMode="numeric" required />
      <Field label="To, the last day" value={to} wrong={wrong.value} inputMode="numeric" required />
      <Field label="Why" value={reason} required />
    </Form>
  );
}

type OnHoliday = "falls_away" | "day_before" | "day_after";

/** Whose public holidays are kept, and what becomes of a delivery on one. */
export function Holidays({ row }: { row: SupplierRow }) {
  const { answer, decide } = useGiving();
  const country = useSignal(row.holidays?.country ?? "");
  const part = useSignal(row.holidays?.subdivision ?? "");
  const delivery = useSignal<string>(row.holidays?.delivery ?? "falls_away");
  const orders = useSignal(row.holidays?.orders_taken ? "yes" : "no");
  const send = async () => {
    const holidays = {
      country: country.value.trim() || null,
      subdivision: part.value.trim() || null,
      delivery: delivery.value as OnHoliday,
      orders_taken: orders.value === "yes",
    };
    const body = { supplier: row.id, holidays };
    return (await decide("set_calendar", body, row.version)).problem ?? null;
  };
  return (
    <Form send={send} does="Keep it" kind="plain">
      {answer.value && isGiven(answer.value) && <Said kind="done">The calendar is kept.</Said>}
      <Field label="Country" value={country} hint="Two letters, as GB; empty: keeps none" />
      <Field label="Part of it" value={part} hint="As SCT for Scotland; empty: the whole country" />
      <Select
        label="A delivery on a holiday"
        value={delivery}
        options={[
          { value: "falls_away", label: "falls away" },
          { value: "day_before", label: "comes the working day before" },
          { value: "day_after", label: "comes the working day after" },
        ]}
      />
      <Select
        label="Orders on a holiday"
        value={orders}
        hint="Where none are taken, a cut-off on it moves to the day before."
        options={[
          { value: "no", label: "none are taken" },
          { value: "yes", label: "are taken" },
        ]}
      />
    </Form>
  );
}
