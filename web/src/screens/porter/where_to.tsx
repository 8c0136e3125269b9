import { Button } from "../../parts/button";
import { Field, Select } from "../../parts/fields";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

interface WhereToProps {
  facts: Facts;
  state: LineState;
}

/** Where it is put away, and how warm it came where that place is cold. */
export function WhereTo({ facts, state }: WhereToProps) {
  const area = facts.areas.find(({ id }) => id === state.area.value);
  const isCold = area?.kind === "chilled" || area?.kind === "frozen";
  return (
    <section class="stack tight" aria-label="Where it goes">
      {isCold && (
        <div class="with-key">
          <Field
            label="How warm, °C"
            value={state.temperature}
            inputMode="decimal"
            enterKeyHint="done"
            big
            hint={area.kind === "frozen" ? "Between two packs, of the warmest." : undefined}
          />
          <Button
            pressed={isBelow(state.temperature.value)}
            onClick={() => {
              const typed = state.temperature.value.trim();
              state.temperature.value = isBelow(typed) ? typed.slice(1) : `-${typed}`;
            }}
          >
            Below zero
          </Button>
        </div>
      )}
      <Select
        label="Goes to"
        value={state.area}
        options={[
          ...(state.area.value ? [] : [{ value: "", label: "choose" }]),
          ...facts.areas.map(({ id, area: name }) => ({ value: id, label: name })),
        ]}
      />
    </section>
  );
}

function isBelow(typed: string): boolean {
  return /^[-−]/.test(typed.trim());
}
