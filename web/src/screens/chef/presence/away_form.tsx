import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { Button } from "../../../parts/button";
import { Choice, Field, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { isWhole, Stepper } from "../stepper";
import { daysAhead, mealsOf, tablesOf } from "./choices";
import type { FormProps } from "./stay_form";

/** Who of a table eats elsewhere, on which day, at which meal. */
export function AwayForm({ told, doing, onClose }: FormProps) {
  const days = daysAhead(told.zone);
  const tables = tablesOf(told);
  const who = useSignal("");
  const heads = useSignal("1");
  const table = useSignal(tables[0] ?? "");
  const first = useSignal(days[0]?.value ?? "");
  const last = useSignal(first.value);
  const meal = useSignal("");
  const by = useSignal("");
  const ready = isWhole(heads.value) && Number(heads.value) > 0;
  const say = async () => {
    const name = who.value.trim() || `${heads.value.trim()} of ${table.value}`;
    const body = {
      away: crypto.randomUUID(),
      who: name,
      heads: Number(heads.value),
      table: table.value,
      first: first.value,
      last: last.value,
      ...(meal.value && { meal: meal.value }),
      by: by.value.trim(),
    };
    if (isGiven(await doing.act("say_away", body, name))) onClose();
  };
  return (
    <Panel title="Somebody eats out" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) void say();
        }}
      >
        <Choice
          legend="Table"
          value={table}
          options={tables.map((value) => ({ value, label: value }))}
        />
        <Stepper label="How many" value={heads} />
        <Field label="Who, if you know" value={who} />
        <Select
          label="From"
          value={first}
          options={days}
          onChange={() => {
            last.value = first.value;
          }}
        />
        <Select
          label="To"
          value={last}
          options={days.filter(({ value }) => value >= first.value)}
        />
        <Choice
          legend="Meal"
          value={meal}
          options={[
            { value: "", label: "All meals" },
            ...mealsOf(told, table.value).map((value) => ({ value, label: value })),
          ]}
        />
        <Field label="Who said so, if not you" value={by} />
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Button kind="main" type="submit" disabled={!ready || doing.busy.value}>
          {ready ? `${heads.value.trim()} fewer at ${table.value}` : "How many eat out?"}
        </Button>
      </form>
    </Panel>
  );
}
