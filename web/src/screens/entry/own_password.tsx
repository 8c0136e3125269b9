import type { Signal } from "@preact/signals";
import { Field } from "../../parts/fields";

/** A password that a person sets for themselves. */
export function OwnPassword({ value }: { value: Signal<string> }) {
  return (
    <Field
      label="A password of your own"
      value={value}
      type="password"
      autoComplete="new-password"
      enterKeyHint="done"
      hint="Ten letters or more; a few words in a row are good."
      required
    />
  );
}
