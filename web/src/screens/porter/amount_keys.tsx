import { useSignal } from "@preact/signals";
import { me } from "../../door/session";
import { times } from "../../door/sums";
import { Button } from "../../parts/button";
import { Field, Select } from "../../parts/fields";
import { amount } from "../../words/amounts";
import { inUnit } from "../../words/typed";
import type { Facts } from "./line_facts";
import { type LineState, LOOSE, packOf } from "./line_state";
import { differs } from "./line_words";

interface AmountKeysProps {
  facts: Facts;
  state: LineState;
}

const MOST = 999;

/** How many packs came, with large keys; what is weighed or packed otherwise stands behind one more. */
export function AmountKeys({ facts, state }: AmountKeysProps) {
  const pack = packOf(facts, state.pack.value);
  const weighs = useSignal(!pack || facts.item.in_pieces);
  const count = (packs: number) => {
    const chosen = packOf(facts, state.pack.value);
    state.packs.value = Math.min(MOST, Math.max(1, packs));
    if (chosen) state.total.value = times(chosen.quantity.value, state.packs.value);
  };
  return (
    <section class="stack tight" aria-label="How much came">
      {pack && (
        <div class="pack-keys">
          <Button onClick={() => count(state.packs.value - 1)}>
            <span aria-hidden="true">−</span>
            <span class="unseen">One pack fewer</span>
          </Button>
          <p class="figure big" role="status">
            {state.packs} x {pack.pack}
          </p>
          <Button onClick={() => count(state.packs.value + 1)}>
            <span aria-hidden="true">+</span>
            <span class="unseen">One pack more</span>
          </Button>
        </div>
      )}
      <p role="status">
        {facts.item.counted && <span class="figure">{inAll(facts, state)} </span>}
        {differs(facts, state)}
      </p>
      {weighs.value ? (
        <div class="pair">
          {facts.item.counted && (
            <Field
              label={`In all, ${facts.item.unit === "each" ? "pieces" : facts.item.unit}`}
              value={state.total}
              inputMode="decimal"
              enterKeyHint="done"
            />
          )}
          {facts.item.in_pieces && (
            <Field label="Pieces" value={state.pieces} inputMode="numeric" enterKeyHint="done" />
          )}
          {facts.packs.length > 0 && (
            <Select
              label="Packed as"
              value={state.pack}
              options={[
                ...facts.packs.map(({ id, pack: name }) => ({ value: id, label: name })),
                { value: LOOSE, label: "loose, no pack" },
              ]}
              onChange={() => count(state.packs.value)}
            />
          )}
        </div>
      ) : (
        <div>
          <Button
            kind="quiet"
            onClick={() => {
              weighs.value = true;
            }}
          >
            Weighed, or packed otherwise
          </Button>
        </div>
      )}
    </section>
  );
}

function inAll({ item }: Facts, { total }: LineState): string {
  const value = inUnit(total.value, item.unit);
  if (value === null) return "";
  const pieces = item.unit === "each" ? " in all." : ".";
  return amount({ value, unit: item.unit }, me.value?.house.decimal_mark) + pieces;
}
