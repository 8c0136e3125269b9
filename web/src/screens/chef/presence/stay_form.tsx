import { type Signal, useComputed, useSignal } from "@preact/signals";
import { type BodyOf, isGiven } from "../../../door/command";
import type { Reports } from "../../../door/rows";
import { Button } from "../../../parts/button";
import type { Doing } from "../../../parts/doing";
import { Choice, Field, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { Wrong } from "../../../parts/said";
import { dayName } from "../../../words/time";
import { isWhole, Stepper } from "../stepper";
import { among, daysAhead, mealsOf, tablesOf } from "./choices";
import { StayEffects } from "./stay_effects";
import type { OneStay } from "./stay_words";

export interface FormProps {
  told: Reports["presence"];
  doing: Doing;
  onClose: () => void;
}

/** Who comes to stay, at which table, from which meal to which; a stay that was said begins as it stands. */
export function StayForm({ told, doing, onClose, of }: FormProps & { of?: OneStay }) {
  const days = daysAhead(told.zone);
  const tables = tablesOf(told);
  const id = useSignal(of?.stay ?? crypto.randomUUID());
  const who = useSignal(of?.who ?? "");
  const heads = useSignal(String(of?.heads ?? 1));
  const table = useSignal(of?.table ?? tables[0] ?? "");
  const first = useSignal(of?.first ?? days[0]?.value ?? "");
  const firstAt = useSignal(of?.first_at ?? "");
  const last = useSignal(of?.last ?? "");
  const lastAt = useSignal(of?.last_at ?? "");
  const by = useSignal("");
  const isSaid = isWhole(heads.value) && Number(heads.value) > 0;
  const ready = who.value.trim() !== "" && isSaid;
  const body = useComputed<BodyOf<"say_stay">>(() => ({
    stay: id.value,
    who: who.value.trim(),
    heads: Number(heads.value),
    table: table.value,
    first: first.value,
    ...(firstAt.value && { first_at: firstAt.value }),
    ...(last.value && { last: last.value }),
    ...(last.value && lastAt.value && { last_at: lastAt.value }),
    by: by.value.trim(),
  }));
  const isSame = of !== undefined && isAsItStands(of, body.value);
  const say = async () => {
    const words = `${body.value.who} (${body.value.heads})`;
    if (isGiven(await doing.act("say_stay", body.value, words, of?.version))) onClose();
  };
  return (
    <Panel title={of ? "Change a stay" : "Somebody comes"} onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready && !isSame) void say();
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
        <FromTo {...{ told, table, first, firstAt, last, lastAt }} />
        <Field label="Who said so, if not you" value={by} />
        {!isSame && <StayEffects stay={isSaid ? body.value : null} zone={told.zone} />}
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Button kind="main" type="submit" disabled={!ready || isSame || doing.busy.value}>
          {mainWords({ ready, isSame, of, who: who.value.trim(), heads: heads.value.trim() })}
        </Button>
      </form>
    </Panel>
  );
}

interface FromToProps {
  told: Reports["presence"];
  table: Signal<string>;
  first: Signal<string>;
  firstAt: Signal<string>;
  last: Signal<string>;
  lastAt: Signal<string>;
}

/** From which day and meal to which. */
function FromTo({ told, table, first, firstAt, last, lastAt }: FromToProps) {
  const days = daysAhead(told.zone);
  const meals = mealsOf(told, table.value).map((meal) => ({ value: meal, label: meal }));
  return (
    <>
      <Select
        label="Comes"
        value={first}
        options={among(days, first.value, dayName)}
        onChange={() => {
          if (last.value && last.value < first.value) last.value = first.value;
        }}
      />
      <Select
        label="First meal"
        value={firstAt}
        options={[{ value: "", label: "the first of the day" }, ...among(meals, firstAt.value)]}
      />
      <Select
        label="Leaves"
        value={last}
        options={[
          { value: "", label: "not known yet" },
          ...among(days, last.value, dayName).filter(({ value }) => value >= first.value),
        ]}
      />
      {last.value && (
        <Select
          label="Last meal"
          value={lastAt}
          options={[{ value: "", label: "the last of the day" }, ...among(meals, lastAt.value)]}
        />
      )}
    </>
  );
}

function isAsItStands(of: OneStay, body: BodyOf<"say_stay">): boolean {
  return (
    of.who === body.who &&
    of.heads === body.heads &&
    of.table === body.table &&
    of.first === body.first &&
    (of.first_at ?? undefined) === body.first_at &&
    (of.last ?? undefined) === body.last &&
    (of.last_at ?? undefined) === body.last_at
  );
}

interface MainWords {
  ready: boolean;
  isSame: boolean;
  of: OneStay | undefined;
  who: string;
  heads: string;
}

function mainWords({ ready, isSame, of, who, heads }: MainWords): string {
  if (!ready) return "Who comes?";
  if (isSame) return "Nothing changed yet";
  return of ? "It is so now" : `${who}: ${heads} more`;
}
