import { type Signal, useSignal } from "@preact/signals";
import { type BodyOf, newId } from "../../../door/command";
import type { ItemRow } from "../../../door/rows";
import { sign } from "../../../door/sums";
import { Button } from "../../../parts/button";
import { Field, Select } from "../../../parts/fields";
import { inUnit } from "../../../words/typed";
import { ItemFinder } from "./item_finder";

/** Something that making left beside it: so much of an item, of a batch that went in or of all. */
export interface ByProduct {
  child: string;
  item: ItemRow;
  typed: string;
  /** The id of the batch it came of; empty: of all that went in. */
  of: string;
}

/** As the command says them. */
export function asParts(kept: ByProduct[]): NonNullable<BodyOf<"make">["by_products"]> {
  return kept.map(({ child, item, typed, of }) => ({
    child,
    item: item.id,
    quantity: { value: inUnit(typed, item.unit) ?? "0", unit: item.unit },
    ...(of ? { of } : {}),
  }));
}

export function areReadable(kept: ByProduct[]): boolean {
  return kept.every(({ typed, item }) => sign(inUnit(typed, item.unit) ?? "0") > 0);
}

interface ByProductsProps {
  kept: Signal<ByProduct[]>;
  /** The batches that went in, by id, in words. */
  parts: { batch: string; words: string }[];
}

/** What is kept of what making leaves: bones, whites, peel; each becomes a batch of its own. */
export function ByProducts({ kept, parts }: ByProductsProps) {
  const add = (item: ItemRow) => {
    kept.value = [...kept.peek(), { child: newId(), item, typed: "", of: "" }];
  };
  const change = (child: string, to: Partial<ByProduct>) => {
    kept.value = kept.peek().map((each) => (each.child === child ? { ...each, ...to } : each));
  };
  return (
    <section class="stack tight" aria-label="Kept beside it">
      <ItemFinder label="Kept beside it: bones, whites, peel" onItem={add} />
      {kept.value.map((each) => (
        <OneKept
          key={each.child}
          of={each}
          parts={parts}
          onChange={(to) => change(each.child, to)}
          onLeave={() => {
            kept.value = kept.peek().filter(({ child }) => child !== each.child);
          }}
        />
      ))}
    </section>
  );
}

interface OneKeptProps {
  of: ByProduct;
  parts: ByProductsProps["parts"];
  onChange: (to: Partial<ByProduct>) => void;
  onLeave: () => void;
}

function OneKept({ of, parts, onChange, onLeave }: OneKeptProps) {
  const typed = useSignal(of.typed);
  const batch = useSignal(of.of);
  const { unit, item } = of.item;
  return (
    <div class="stack tight">
      <Field
        label={`${item}, ${unit === "each" ? "pieces" : unit}`}
        value={typed}
        inputMode="decimal"
        onChange={() => onChange({ typed: typed.value })}
      />
      {parts.length > 0 && (
        <Select
          label={`What the ${item} came of`}
          value={batch}
          onChange={() => onChange({ of: batch.value })}
          options={[
            { value: "", label: "all that went in" },
            ...parts.map(({ batch: value, words }) => ({ value, label: words })),
          ]}
        />
      )}
      <div>
        <Button kind="quiet" onClick={onLeave}>
          Leave it out<span class="unseen"> {item}</span>
        </Button>
      </div>
    </div>
  );
}
