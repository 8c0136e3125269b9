import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import type { Reports } from "../../../door/rows";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Choice, Field, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { isWhole, Stepper } from "../stepper";
import { daysAhead, mealsOf, tablesOf } from "./choices";

export interface FormProps {
  told: Reports["presence"];
  doing: Doing;
  onClose: () => void;
}

/** Who comes to stay, at which table, from which meal to which. */
export function StayForm({ told, doing, onClose }: FormProps) {
  const days = daysAhead(told.zone);
  const tables = tablesOf(told);
  const who = useSignal("");
  const heads = useSignal("1");
  const table = useSignal(tables[0] ?? "");
  const first = useSignal(days[0]?.value ?? "");
  const firstAt = useSignal("");
  const last = useSignal("");
  const lastAt = useSignal("");
  const by = useSignal("");
  const meals = mealsOf(told, table.value).map((meal) => ({ value: meal, label: meal }));
  const ready = who.value.trim() !== "" && isWhole(heads.value) && Number(heads.value) > 0;
  const say = async () => {
    const body = {
      stay: crypto.randomUUID(),
      who: who.value.trim(),
      heads: Number(heads.value),
      table: table.value,
      first: first.value,
      ...(firstAt.value && { first_at: firstAt.value }),
      ...(last.value && { last: last.value }),
      ...(last.value && lastAt.value && { last_at: lastAt.value }),
      by: by.value.trim(),
    };
    if (isGiven(await doing.act("say_stay", body, `${body.who} (${body.heads})`))) onClose();
  };
  return (
    <Panel title="Somebody comes" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) void say();
        }}
      >
        <Field
          label="Who"
          value={who}
          hint="A name, several, or what they are: two guests. What a person cannot eat is asked for on these days where the name is the same."
        />
        <Stepper label="How many" value={heads} />
        <Choice
          legend="Table"
          value={table}
          options={tables.map((value) => ({ value, label: value }))}
        />
        <Select label="Comes" value={first} options={days} />
        <Select
          label="First meal"
          value={firstAt}
          options={[{ value: "", label: "the first of the day" }, ...meals]}
        />
        <Select
          label="Leaves"
          value={last}
          options={[
            { value: "", label: "not known yet" },
            ...days.filter(({ value }) => value >= first.value),
          ]}
        />
        {last.value && (
          <Select
            label="Last meal"
            value={lastAt}
            options={[{ value: "", label: "the last of the day" }, ...meals]}
          />
        )}
        <Field label="Who said so, if not you" value={by} />
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Button kind="main" type="submit" disabled={!ready || doing.busy.value}>
          {ready ? `${who.value.trim()}: ${heads.value.trim()} more` : "Who comes?"}
        </Button>
      </form>
    </Panel>
  );
}
