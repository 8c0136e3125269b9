import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { Button } from "../../../parts/button";
import { Choice, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { isWhole, Stepper } from "../stepper";
import { daysAhead, mealsOf, tablesOf } from "./choices";
import { isSame, type Part, partOf, WEEKDAYS } from "./rota_lines";
import type { FormProps } from "./stay_form";

/** How many of a table eat on a weekday, or on one day alone; its other lines stay. */
export function RotaForm({ told, doing, onClose }: FormProps) {
  const tables = tablesOf(told);
  const table = useSignal(tables[tables.length - 1] ?? "");
  const when = useSignal(WEEKDAYS[0] ?? "");
  const meal = useSignal("");
  const heads = useSignal("");
  const ready = isWhole(heads.value);
  const say = async () => {
    const day = WEEKDAYS.includes(when.value) ? { weekday: when.value } : { date: when.value };
    const line: Part = {
      heads: Number(heads.value),
      ...day,
      ...(meal.value && { meal: meal.value }),
    };
    const rota = told.rotas.find((each) => each.table === table.value);
    const others = (rota?.lines ?? []).map(partOf).filter((each) => !isSame(each, line));
    const body = { table: table.value, lines: [...others, line] };
    const words = `${table.value}, ${when.value}: ${heads.value.trim()}`;
    if (isGiven(await doing.act("set_rota", body, words, rota?.version))) onClose();
  };
  return (
    <Panel title="Rota" onClose={onClose}>
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
        <Select
          label="When"
          value={when}
          options={[
            ...WEEKDAYS.map((value) => ({ value, label: `Every ${value}` })),
            ...daysAhead(told.zone).map(({ value, label }) => ({ value, label: `Only ${label}` })),
          ]}
        />
        <Choice
          legend="Meal"
          value={meal}
          options={[
            { value: "", label: "Every meal" },
            ...mealsOf(told, table.value).map((value) => ({ value, label: value })),
          ]}
        />
        <Stepper label="How many eat" value={heads} />
        <p class="soft">On all other days and meals as many as usual.</p>
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Button kind="main" type="submit" disabled={!ready || doing.busy.value}>
          {ready ? `${table.value}: ${heads.value.trim()}` : "How many eat?"}
        </Button>
      </form>
    </Panel>
  );
}
