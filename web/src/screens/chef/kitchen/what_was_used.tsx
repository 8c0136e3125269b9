import { type Signal, useSignal } from "@preact/signals";
import { useReport } from "../../../door/reports";
import type { ItemRow, ServingBatch, ServingRow, StockRow } from "../../../door/rows";
import { sign } from "../../../door/sums";
import { Button } from "../../../parts/button";
import { Field, Select } from "../../../parts/fields";
import { amount } from "../../../words/amounts";
import type { Otherwise } from "./exceptions";
import { ItemFinder } from "./item_finder";

interface UsedProps {
  row: ServingRow;
  otherwise: Signal<Otherwise>;
}

/** Of which batches, for whoever used another one or another amount; closed as long as nobody did. */
export function WhatWasUsed({ row, otherwise }: UsedProps) {
  const stock = useReport<StockRow>("stock").said.value?.rows ?? [];
  return (
    <details class="narrow">
      <summary>Another batch, another amount, or something more was used</summary>
      <div class="stack">
        {row.batches.map((batch) => (
          <OneBatch
            key={batch.batch}
            batch={batch}
            otherwise={otherwise}
            others={stock.filter((each) => isOther(each, batch))}
          />
        ))}
        {row.batches.length === 0 && (
          <p>
            The books hold nothing for this meal any more: what dies first is taken, as the recipes
            say.
          </p>
        )}
        <SomethingMore otherwise={otherwise} />
      </div>
    </details>
  );
}

function isOther(each: StockRow, { batch, item_id }: ServingBatch): boolean {
  return (
    each.item_id === item_id && each.batch !== batch && each.usable && sign(each.on_hand.value) > 0
  );
}

interface OneBatchProps {
  batch: ServingBatch;
  otherwise: Signal<Otherwise>;
  others: StockRow[];
}

function OneBatch({ batch, otherwise, others }: OneBatchProps) {
  const typed = useSignal("");
  const instead = useSignal("");
  const { unit } = batch.quantity;
  const change = () => {
    const of = { typed: typed.value, instead: instead.value || null };
    const batches = { ...otherwise.peek().batches, [batch.batch]: of };
    otherwise.value = { ...otherwise.peek(), batches };
  };
  return (
    <fieldset class="stack tight">
      <legend class="legend">
        {amount(batch.quantity)} {batch.item} {batch.label}
      </legend>
      <p class="soft">
        {batch.area ?? "in the kitchen"}
        {sign(batch.taken_out.value) > 0 && `, ${amount(batch.taken_out)} was brought`}
      </p>
      <Field
        label={`Really used of ${batch.item}, ${unit === "each" ? "pieces" : unit}`}
        hint="Left empty, as planned."
        value={typed}
        inputMode="decimal"
        onChange={change}
      />
      {others.length > 0 && (
        <Select
          label={`From which batch of ${batch.item}`}
          value={instead}
          onChange={change}
          options={[
            { value: "", label: `${batch.label}, as planned` },
            ...others.map((each) => ({
              value: each.batch,
              label: `${each.label}, ${each.area ?? "the kitchen"}, ${amount(each.on_hand)}`,
            })),
          ]}
        />
      )}
    </fieldset>
  );
}

/** What was not planned for it at all, or more of something, found by three letters. */
function SomethingMore({ otherwise }: { otherwise: Signal<Otherwise> }) {
  const add = (item: ItemRow) => {
    const more = { item: item.id, name: item.item, unit: item.unit, typed: "" };
    otherwise.value = { ...otherwise.peek(), more: [...otherwise.peek().more, more] };
  };
  return (
    <section class="stack tight" aria-label="Something that was not planned">
      <ItemFinder label="Something that was not planned" onItem={add} />
      {otherwise.value.more.map(({ item, name, unit }, at) => (
        <MoreOf key={item} name={name} unit={unit} at={at} otherwise={otherwise} />
      ))}
    </section>
  );
}

interface MoreOfProps {
  name: string;
  unit: string;
  at: number;
  otherwise: Signal<Otherwise>;
}

function MoreOf({ name, unit, at, otherwise }: MoreOfProps) {
  const typed = useSignal("");
  const set = (more: Otherwise["more"]) => {
    otherwise.value = { ...otherwise.peek(), more };
  };
  return (
    <div class="row ends">
      <Field
        label={`${name} used in all, ${unit === "each" ? "pieces" : unit}`}
        value={typed}
        inputMode="decimal"
        onChange={() =>
          set(
            otherwise
              .peek()
              .more.map((each, place) => (place === at ? { ...each, typed: typed.value } : each)),
          )
        }
      />
      <Button onClick={() => set(otherwise.peek().more.filter((_, place) => place !== at))}>
        Leave it out<span class="unseen"> {name}</span>
      </Button>
    </div>
  );
}
