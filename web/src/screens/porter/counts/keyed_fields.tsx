import { type Signal, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import type { ItemRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Select } from "../../../parts/fields";
import { hasLarger, looseUnit } from "./amounts";

interface KeyedState {
  pack: Signal<string>;
  packs: Signal<string>;
  loose: Signal<string>;
  inLarger: Signal<boolean>;
  pieces: Signal<string>;
}

interface KeyedFieldsProps {
  item: ItemRow;
  packs: ItemRow["packs"];
  state: KeyedState;
  /** What that comes to. */
  children: ComponentChildren;
}

/** Whole packs, and what is opened or loose; one set of large keys for the field that was touched last. */
export function KeyedFields({ item, packs, state, children }: KeyedFieldsProps) {
  const chosen = useSignal(packs.length > 0 ? state.packs : state.loose);
  const pack = packs.find(({ id }) => id === state.pack.value);
  const unit = looseUnit(item.unit, state.inLarger.value);
  const field = (label: ComponentChildren, value: Signal<string>) => (
    <Typed label={label} value={value} onChoose={() => (chosen.value = value)} first={chosen} />
  );
  const key = (typed: string) => {
    chosen.value.value = (chosen.value.value + typed).slice(0, 8);
  };
  const back = () => {
    chosen.value.value = chosen.value.value.slice(0, -1);
  };
  return (
    <>
      <div class="pair">
        {pack &&
          field(
            <>
              <span class="unseen">Whole packs, </span>x {pack.pack}
            </>,
            state.packs,
          )}
        {field(looseLabel(item.unit, unit, packs.length > 0), state.loose)}
        {item.in_pieces && field("Pieces", state.pieces)}
      </div>
      <div class="row">
        {hasLarger(item.unit) && (
          <Button
            pressed={state.inLarger.value}
            onClick={() => (state.inLarger.value = !state.inLarger.value)}
          >
            in {looseUnit(item.unit, true)}
          </Button>
        )}
        {children}
      </div>
      <Keypad onKey={key} onBack={back} />
      {packs.length > 1 && (
        <Select
          label="Packed as"
          value={state.pack}
          options={packs.map(({ id, pack }) => ({ value: id, label: pack }))}
        />
      )}
    </>
  );
}

function looseLabel(base: string, unit: string, hasPacks: boolean): string {
  const said = base === "each" ? "pieces" : unit;
  return hasPacks ? `Loose, ${said}` : `Found, ${said}`;
}

interface TypedProps {
  label: ComponentChildren;
  value: Signal<string>;
  onChoose: () => void;
  first: Signal<Signal<string>>;
}

/** A field that the large keys type into once it was touched; a desk has keys of its own. */
function Typed({ label, value, onChoose, first }: TypedProps) {
  const id = useId();
  return (
    <div class={`field ${first.value === value ? "chosen" : ""}`}>
      <label for={id}>{label}</label>
      <input
        id={id}
        class="figure"
        type="text"
        inputMode="none"
        autoComplete="off"
        value={value}
        onFocus={onChoose}
        onInput={(event) => {
          value.value = event.currentTarget.value;
        }}
      />
    </div>
  );
}

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"];

function Keypad({ onKey, onBack }: { onKey: (typed: string) => void; onBack: () => void }) {
  return (
    <div class="keypad">
      {KEYS.map((each) => (
        <Button key={each} onClick={() => onKey(each)}>
          {each}
        </Button>
      ))}
      <Button onClick={onBack}>
        <span aria-hidden="true">⌫</span>
        <span class="unseen">Take the last digit back</span>
      </Button>
    </div>
  );
}
