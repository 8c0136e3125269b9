import type { Signal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface FieldProps {
  label: string;
  value: Signal<string>;
  hint?: ComponentChildren;
  wrong?: string | undefined;
  type?: "text" | "password";
  inputMode?: "text" | "decimal" | "numeric";
  autoComplete?: string;
  enterKeyHint?: "next" | "done" | "search" | "enter";
  required?: boolean;
  big?: boolean;
  onChange?: () => void;
  inputRef?: (element: HTMLInputElement | null) => void;
}

/** One line that a person fills in; its label stays visible, and what is wrong stands below it. */
export function Field(props: FieldProps) {
  const id = useId();
  const { label, value, hint, wrong, big, onChange, inputRef } = props;
  const about = [hint && `${id}-hint`, wrong && `${id}-wrong`].filter(Boolean).join(" ");
  const line = {
    id,
    ref: inputRef ?? null,
    inputMode: props.inputMode,
    autoComplete: props.autoComplete ?? "off",
    enterKeyHint: props.enterKeyHint,
    required: props.required,
    class: big ? "figure" : undefined,
    value,
    "aria-invalid": wrong ? ("true" as const) : undefined,
    "aria-describedby": about || undefined,
    onInput: (event: { currentTarget: HTMLInputElement }) => {
      value.value = event.currentTarget.value;
      onChange?.();
    },
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {props.type === "password" ? (
        <input {...line} type="password" />
      ) : (
        <input {...line} type="text" />
      )}
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

export interface Option {
  value: string;
  label: ComponentChildren;
}

interface ChoiceProps {
  legend: string;
  value: Signal<string>;
  options: Option[];
  onChange?: () => void;
}

/** One of a few, as large keys. */
export function Choice({ legend, value, options, onChange }: ChoiceProps) {
  const name = useId();
  return (
    <fieldset>
      <legend class="legend">{legend}</legend>
      <div class="choices">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={value.value === option.value}
              onChange={() => {
                value.value = option.value;
                onChange?.();
              }}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface SelectProps {
  label: string;
  value: Signal<string>;
  options: { value: string; label: string }[];
  hint?: string;
  onChange?: () => void;
}

/** One of many. */
export function Select({ label, value, options, hint, onChange }: SelectProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={hint ? `${id}-hint` : undefined}
        onChange={(event) => {
          value.value = event.currentTarget.value;
          onChange?.();
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value} selected={option.value === value.value}>
            {option.label}
          </option>
        ))}
      </select>
      {hint && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
    </div>
  );
}
