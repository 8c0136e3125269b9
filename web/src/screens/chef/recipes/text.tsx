import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import type { ItemRow } from "../../../door/rows";

/** The names of the items, once a screen, for the fields that offer them. */
export function ItemNames({ id, items }: { id: string; items: Pick<ItemRow, "item">[] }) {
  return (
    <datalist id={id}>
      {items.map(({ item }) => (
        <option key={item} value={item} />
      ))}
    </datalist>
  );
}

interface TextProps {
  label: string;
  value: string;
  onInput: (typed: string) => void;
  /** The id of the names that are offered by their letters. */
  list?: string;
  hint?: ComponentChildren;
  wrong?: string | undefined;
  inputMode?: "text" | "decimal" | "numeric";
}

/** One line of a draft that is kept elsewhere. */
export function Text({ label, value, onInput, list, hint, wrong, inputMode }: TextProps) {
  const id = useId();
  const about = [hint && `${id}-hint`, wrong && `${id}-wrong`].filter(Boolean).join(" ");
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        list={list}
        inputMode={inputMode}
        autoComplete="off"
        value={value}
        aria-invalid={wrong ? "true" : undefined}
        aria-describedby={about || undefined}
        onInput={({ currentTarget }) => onInput(currentTarget.value)}
      />
      {hint && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {wrong && (
        <span class="wrong" id={`${id}-wrong`}>
          {wrong}
        </span>
      )}
    </div>
  );
}

interface LongTextProps {
  label: string;
  value: string;
  rows: number;
  onInput: (typed: string) => void;
  hint?: string;
}

/** Several lines. */
export function LongText({ label, value, rows, onInput, hint }: LongTextProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={rows}
        value={value}
        aria-describedby={hint ? `${id}-hint` : undefined}
        onInput={({ currentTarget }) => onInput(currentTarget.value)}
      />
      {hint && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
    </div>
  );
}

interface PickProps {
  label: string;
  value: string;
  options: [value: string, words: string][];
  onPick: (value: string) => void;
}

/** One of a few words of a draft. */
export function Pick({ label, value, options, onPick }: PickProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={({ currentTarget }) => onPick(currentTarget.value)}>
        {options.map(([of, words]) => (
          <option key={of} value={of} selected={of === value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

interface TickProps {
  label: string;
  checked: boolean;
  onTick: (checked: boolean) => void;
}

/** Yes or no. */
export function Tick({ label, checked, onTick }: TickProps) {
  return (
    <label class="tick-line">
      <input
        type="checkbox"
        checked={checked}
        onChange={({ currentTarget }) => onTick(currentTarget.checked)}
      />
      <span>{label}</span>
    </label>
  );
}
