import { useSignal } from "@preact/signals";
import type { PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { money } from "../../../words/amounts";
import { answersTo } from "../../../words/find";
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

const MOST = 6;

/** Add what nobody needs yet: one of the supplier's packs by a few letters, or anything in words. */
export function AddLine({ of, prices, lines, free, changing }: AddProps) {
  const typed = useSignal("");
  const much = useSignal("");
  const words = typed.value.trim();
  const found = packsFound(of, prices, words);
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

function packsFound(of: Delivery, prices: PriceRow[], typed: string): PriceRow[] {
  return prices
    .filter(({ supplier_id: id }) => id === of.supplierId)
    .map((row) => ({ row, rank: answersTo(row.item, typed) }))
    .filter(({ rank }) => rank !== null)
    .sort((one, other) => (one.rank ?? 0) - (other.rank ?? 0))
    .slice(0, MOST)
    .map(({ row }) => row);
}

/** One pack more of it than the draft has. */
export function addPack(lines: DraftLine[], changing: Changing, row: PriceRow): void {
  const key = keyOf(row);
  const packs = lines.find((line) => line.key === key)?.packs ?? 0;
  changing.packs.value = { ...changing.packs.value, [key]: packs + 1 };
}
