import { Choice, Field, Select } from "../../parts/fields";
import type { Facts } from "./line_facts";
import { type LineState, mayOnlyHold } from "./line_state";

interface VerdictKeysProps {
  facts: Facts;
  state: LineState;
}

const VERDICTS = [
  { value: "accept", label: "Accept" },
  { value: "hold", label: "Hold for the chef" },
  { value: "refuse", label: "Refuse" },
];

const REASONS = ["too warm", "short-dated", "damaged", "wrong goods", "not ordered"];

/** What is to become of it: accepted, on hold for the chef, or refused with a reason. */
export function VerdictKeys({ facts, state }: VerdictKeysProps) {
  const verdicts = mayOnlyHold(facts)
    ? VERDICTS.filter(({ value }) => value !== "accept")
    : VERDICTS;
  const asksWhy =
    state.verdict.value === "refuse" || (state.verdict.value === "hold" && facts.line !== null);
  return (
    <section class="stack tight" aria-label="What becomes of it">
      {!facts.line && !facts.order && (
        <Select
          label="Who brought it"
          value={state.supplier}
          options={[
            { value: "", label: "nobody known" },
            ...facts.suppliers.map(({ supplier }) => ({ value: supplier, label: supplier })),
          ]}
        />
      )}
      <div class="three">
        <Choice legend="What becomes of it" value={state.verdict} options={verdicts} />
      </div>
      {asksWhy && (
        <>
          <Choice
            legend="Why"
            value={state.reason}
            options={REASONS.map((reason) => ({ value: reason, label: reason }))}
          />
          <Field label="Or in your own words" value={state.reason} enterKeyHint="done" />
        </>
      )}
    </section>
  );
}
