import type { Signal } from "@preact/signals";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";

interface StepperProps {
  label: string;
  value: Signal<string>;
  /** A person wrote or stepped it. */
  onChange?: () => void;
}

/** A whole number with one large key for fewer and one for more. */
export function Stepper({ label, value, onChange }: StepperProps) {
  const step = (by: number) => {
    value.value = String(Math.max(0, (Number.parseInt(value.value, 10) || 0) + by));
    onChange?.();
  };
  return (
    <div class="stepper">
      <Button onClick={() => step(-1)}>
        <span aria-hidden="true">−</span>
        <span class="unseen">One fewer: {label}</span>
      </Button>
      <Field
        {...{ label, value }}
        {...(onChange && { onChange })}
        inputMode="numeric"
        enterKeyHint="done"
        big
      />
      <Button onClick={() => step(1)}>
        <span aria-hidden="true">+</span>
        <span class="unseen">One more: {label}</span>
      </Button>
    </div>
  );
}

/** Whether it is a whole number that may be sent. */
export function isWhole(value: string): boolean {
  return /^\d{1,5}$/.test(value.trim());
}
