import { Button } from "../../parts/button";
import { Choice, Field, Select } from "../../parts/fields";
import { AWAITED, REPLACED } from "./instead";
import type { Facts } from "./line_facts";
import { type LineState, mayOnlyHold } from "./line_state";

interface VerdictKeysProps {
  facts: Facts;
  state: LineState;
  /** Somebody who may accept a short date does, and says why. */
  acceptsShort: boolean;
  /** Another thing came than this line says. */
  onOther: () => void;
}

const VERDICTS = [
  { value: "accept", label: "Accept" },
  { value: "hold", label: "Hold for the chef" },
  { value: "refuse", label: "Refuse" },
];

const REASONS = ["too warm", "short-dated", "damaged", "wrong goods", "not ordered"];

/** What is to become of it: accepted, on hold for the chef, or refused with a reason. */
export function VerdictKeys({ facts, state, acceptsShort, onOther }: VerdictKeysProps) {
  const verdicts = mayOnlyHold(facts, state)
    ? VERDICTS.filter(({ value }) => value !== "accept")
    : VERDICTS;
  const asksWhy =
    acceptsShort ||
    state.verdict.value === "refuse" ||
    (state.verdict.value === "hold" && facts.line !== null);
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
      {state.instead.value && (
        <Choice
          legend={`And the ${state.instead.value.item}?`}
          value={state.ordered}
          options={[
            { value: AWAITED, label: "It still comes" },
            { value: REPLACED, label: "It comes no more" },
          ]}
        />
      )}
      <div class="three">
        <Choice legend="What becomes of it" value={state.verdict} options={verdicts} />
      </div>
      {asksWhy && (
        <>
          {!acceptsShort && (
            <Choice
              legend="Why"
              value={state.reason}
              options={REASONS.map((reason) => ({ value: reason, label: reason }))}
            />
          )}
          <Field
            label={acceptsShort ? "Why it is accepted" : "Or in your own words"}
            value={state.reason}
            enterKeyHint="done"
          />
        </>
      )}
      {facts.line && (
        <div>
          <Button kind="quiet" onClick={onOther}>
            Something else came instead
          </Button>
        </div>
      )}
    </section>
  );
}
