import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";
import { limitsOf, limitWords, sourceOf, warmthOf, warmthWords } from "./warmth";

interface HowWarmProps {
  facts: Facts;
  state: LineState;
}

const MARK = { accept: "✓", ask: "?", refuse: "✕" };

/**
 * How warm it came, where its food or its place wants to know; answered while it is typed, above the
 * field: what stands below it is under the keyboard of a phone.
 */
export function HowWarm({ facts, state }: HowWarmProps) {
  const limits = limitsOf(facts, state);
  if (!limits) return null;
  const warmth = warmthOf(facts, state);
  const typed = state.temperature.value;
  return (
    <section class="stack tight" aria-label="Its temperature">
      <p class={`warmth ${warmth ?? "unknown"}`} role="status">
        {warmth && <span aria-hidden="true">{MARK[warmth]} </span>}
        {warmth ? warmthWords(limits, warmth, typed, facts.scale) : limitWords(limits)}
      </p>
      <div class="with-key">
        <Field
          label={`How warm, °${facts.scale}`}
          value={state.temperature}
          inputMode="decimal"
          enterKeyHint="done"
          big
          hint={limits.food === "frozen" ? "Between two packs, of the warmest." : undefined}
        />
        <Button
          pressed={isBelow(typed)}
          onClick={() => {
            state.temperature.value = isBelow(typed) ? typed.trim().slice(1) : `-${typed.trim()}`;
          }}
        >
          Below zero
        </Button>
      </div>
      {!warmth && <p class="soft small">Left empty, it is written down as not taken.</p>}
      <details class="small">
        <summary>Whose limit is this?</summary>
        <p>{sourceOf(limits, warmth)}.</p>
        <p>{facts.caution}</p>
      </details>
    </section>
  );
}

function isBelow(typed: string): boolean {
  return /^[-−]/.test(typed.trim());
}
