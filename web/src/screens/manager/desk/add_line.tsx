import { useSignal } from "@preact/signals";
import type { PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { money } from "../../../words/amounts";
import { packsFound } from "../packs_found";
import type { Delivery, DraftLine, Free } from "./draft";
import { keyOf } from "./draft";
import type { Changing } from "./draft_page";

export interface AddProps {
  of: Delivery;
  prices: PriceRow[];
  lines: DraftLine[];
  free: Free[];
  changing: Changing;
}

/** Add what nobody needs yet: one of the supplier's packs by a few letters, or anything in words. */
export function AddLine({ of, prices, lines, free, changing }: AddProps) {
  const typed = useSignal("");
  const much = useSignal("");
  const words = typed.value.trim();
  const found = packsFound(of.supplierId, prices, words);
  const clear = () => {
    typed.value = "";
    much.value = "";
  };
  const inWords = () => {
    const amount = much.value.trim() || null;
    changing.free.value = [...free, { words, amount, asked: null }];
    clear();
  };
  return (
    <div class="stack tight add-line">
      <Field label="Add something" value={typed} hint="A few letters, or in your own words" />
      {found.map((row) => (
        <Button
          key={row.pack_id}
          onClick={() => {
            addPack(lines, changing, row);
            clear();
          }}
        >
          {row.item}, {row.pack}, {money(row.price)}
        </Button>
      ))}
      {words && (
        <>
          <Field label="How much of it" value={much} hint="In words: 3 small tubs" />
          <Button onClick={inWords}>Add “{words}” in words</Button>
        </>
      )}
    </div>
  );
}

/** One pack more of it than the draft has. */
export function addPack(lines: DraftLine[], changing: Changing, row: PriceRow): void {
  const key = keyOf(row);
  const packs = lines.find((line) => line.key === key)?.packs ?? 0;
  changing.packs.value = { ...changing.packs.value, [key]: packs + 1 };
}
