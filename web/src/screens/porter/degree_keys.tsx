import type { Signal } from "@preact/signals";
import { Button } from "../../parts/button";

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "−", "0", "."] as const;
const CALLED: Record<string, string> = { "−": "Below zero", ".": "Point" };
const LONGEST = 6;

/** A temperature with large keys, as a thermometer shows it; below zero is one key. */
export function DegreeKeys({ typed }: { typed: Signal<string> }) {
  const press = (key: string) => {
    const was = typed.value;
    if (key === "−") typed.value = was.startsWith("-") ? was.slice(1) : `-${was}`;
    else if (key === "." && was.includes(".")) return;
    else if (was.length < LONGEST) typed.value = was + key;
  };
  return (
    <fieldset class="degree-keys">
      <legend class="unseen">The temperature</legend>
      {KEYS.map((key) => (
        <Button key={key} onClick={() => press(key)}>
          {CALLED[key] ? (
            <>
              <span aria-hidden="true">{key}</span>
              <span class="unseen">{CALLED[key]}</span>
            </>
          ) : (
            key
          )}
        </Button>
      ))}
      <Button
        kind="quiet"
        onClick={() => {
          typed.value = "";
        }}
      >
        Begin again
      </Button>
    </fieldset>
  );
}
