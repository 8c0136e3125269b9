import type { Signal } from "@preact/signals";
import type { Problem } from "../../../door/problem";
import type { ItemRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { ItemNames, Pick, Text } from "./text";
import { type Draft, type DraftChange, emptyChange, faultsOf } from "./writing";

const ITEMS = "variant-items";

interface EditorVariantsProps {
  draft: Signal<Draft>;
  items: ItemRow[];
  problem: Problem | null;
}

/** The variants: without alcohol, for children. Several changes of one name are one variant. */
export function EditorVariants({ draft, items, problem }: EditorVariantsProps) {
  const { variants } = draft.value;
  const put = (next: DraftChange[]) => {
    draft.value = { ...draft.value, variants: next };
  };
  const written = variants.filter(({ variant }) => variant.trim() !== "");
  return (
    <section class="stack" aria-label="Variants">
      <h2>Variants</h2>
      <ItemNames id={ITEMS} items={items} />
      {variants.map((change, place) => (
        <Change
          key={change.key}
          change={change}
          number={place + 1}
          wrong={faultsOf(problem, "variants", written.indexOf(change) + 1)}
          onChange={(part) =>
            put(variants.map((each) => (each.key === change.key ? { ...each, ...part } : each)))
          }
          onAway={() => put(variants.filter((each) => each.key !== change.key))}
        />
      ))}
      <div>
        <Button onClick={() => put([...variants, emptyChange()])}>Add a variant</Button>
      </div>
    </section>
  );
}

interface ChangeProps {
  change: DraftChange;
  number: number;
  wrong: ReturnType<typeof faultsOf>;
  onChange: (part: Partial<DraftChange>) => void;
  onAway: () => void;
}

function Change({ change, number, wrong, onChange, onAway }: ChangeProps) {
  return (
    <fieldset class="stack card">
      <legend class="legend">Change {number}</legend>
      <div class="pair from-top">
        <Text
          label="Variant"
          value={change.variant}
          onInput={(variant) => onChange({ variant })}
          hint="such as without alcohol"
        />
        <Pick
          label="It is"
          value={change.change}
          options={[
            ["leave_out", "without"],
            ["replace", "with another instead of"],
            ["add", "with more"],
          ]}
          onPick={(picked) => onChange({ change: picked as DraftChange["change"] })}
        />
      </div>
      <Text
        label="Ingredient"
        value={change.ingredient}
        list={ITEMS}
        onInput={(ingredient) => onChange({ ingredient })}
      />
      {change.change === "replace" && (
        <Text
          label="Instead"
          value={change.instead}
          list={ITEMS}
          onInput={(instead) => onChange({ instead })}
        />
      )}
      {change.change !== "leave_out" && (
        <Text label="Amount" value={change.amount} onInput={(amount) => onChange({ amount })} />
      )}
      {wrong.map((fault) => (
        <p key={JSON.stringify(fault)} role="alert">
          {fault.problem} {fault.todo}
        </p>
      ))}
      <div>
        <Button kind="quiet" onClick={onAway}>
          Take change {number} out
        </Button>
      </div>
    </fieldset>
  );
}
