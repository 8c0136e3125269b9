import { useSignal } from "@preact/signals";
import type { NotBilledRow, PriceRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Field, Select } from "../../../parts/fields";
import { amount, listed, money } from "../../../words/amounts";
import { packsFound } from "../packs_found";
import { goodsDiffer, wordsDiffer } from "./differs";
import {
  added,
  addedInWords,
  type ChargeFor,
  type Draft,
  figures,
  type GoodsLine,
  step,
  typed,
  type WordsLine,
} from "./draft";

type Came = NotBilledRow["lines"][number];

const UNREADABLE = "Write it in figures, as 4.60.";

/** A line of goods: how many packs are billed at what, beside what came. */
export function Goods({ line, draft }: { line: GoodsLine; draft: Draft }) {
  const { currency } = draft;
  const { item, pack, packs, came } = line;
  const of = `${pack} ${item}`;
  const differs = goodsDiffer(draft, line);
  return (
    <li class="stack tight">
      <div class="row ends base">
        <strong>{item}</strong>
        <span class="soft small">{came ? cameWords(came) : "Nobody wrote down that it came"}</span>
      </div>
      <div class="stepping">
        <Button onClick={() => step(line, -1, currency)}>
          <span aria-hidden="true">−</span>
          <span class="unseen">One fewer billed: {of}</span>
        </Button>
        <span class="packs">
          <strong class="figure">{packs.value}</strong> × {pack} billed
        </span>
        <Button onClick={() => step(line, 1, currency)}>
          <span aria-hidden="true">+</span>
          <span class="unseen">One more billed: {of}</span>
        </Button>
      </div>
      {packs.value > 0 && (
        <Field
          label={`Billed for ${item}, ${currency}`}
          value={line.amount}
          inputMode="decimal"
          wrong={typed(line.amount, currency) === null ? UNREADABLE : undefined}
        />
      )}
      {differs && <strong>{differs}</strong>}
    </li>
  );
}

/** What came of a line, and what of it is not sure. */
function cameWords(came: Came): string {
  const { packs, ordered_packs: ordered, missing } = came;
  const isWhole = !missing || Number(missing.value) === 0;
  const refused = came.refused.filter(Boolean);
  return [
    came.counted && came.came
      ? isWhole
        ? `${amount(came.came)} came`
        : `${amount(came.came)} came, ${amount(missing)} did not`
      : `${packs} of ${ordered} came`,
    came.on_hold && "on hold, not decided yet",
    came.refused.length > 0 && `refused${refused.length > 0 ? ` (${listed(refused)})` : ""}`,
    `${money(came.price)} a pack`,
  ]
    .filter(Boolean)
    .join(" · ");
}

/** A line in words: what it comes to, beside what the terms say. */
export function InWords({ line, currency }: { line: WordsLine; currency: string }) {
  const differs = wordsDiffer(line, currency);
  return (
    <li class="stack tight">
      <Field
        label={`${line.words}, ${currency}`}
        value={line.amount}
        inputMode="decimal"
        hint={hintOf(line, currency)}
        wrong={typed(line.amount, currency) === null ? UNREADABLE : undefined}
      />
      {differs && <strong>{differs}</strong>}
    </li>
  );
}

function hintOf({ due, chargeFor }: WordsLine, currency: string): string {
  if (chargeFor === "tax") return "As it is printed; the house keeps no tax rates";
  if (due === null) return "Ordered in words; empty: not on this invoice";
  if (due === 0) return "Nothing in the books stands against it";
  return `The terms say ${money({ minor: due, currency })}`;
}

const CHARGES: { value: ChargeFor; label: string }[] = [
  { value: "other", label: "something else" },
  { value: "delivery", label: "delivery" },
  { value: "minimum", label: "a small order, under the minimum" },
  { value: "tax", label: "a tax" },
];

/** Something on the invoice that is not here: a pack that the supplier sells, or a charge in words. */
export function AddToIt({ draft, prices }: { draft: Draft; prices: PriceRow[] }) {
  const text = useSignal("");
  const charge = useSignal<string>("other");
  const words = text.value.trim();
  const addGoods = (row: PriceRow) => {
    draft.goods.value = [...draft.goods.value, added(row)];
    text.value = "";
  };
  const addWords = () => {
    const line = addedInWords(words, charge.value as ChargeFor);
    draft.words.value = [...draft.words.value, line];
    text.value = "";
  };
  return (
    <div class="stack tight">
      <Field
        label="Something else is on it"
        value={text}
        hint="A few letters, or as it is printed"
      />
      {packsFound(draft.supplierId, prices, words).map((row) => (
        <Button key={row.pack_id} onClick={() => addGoods(row)}>
          {row.item}, {row.pack}, {figures(row.price)}
        </Button>
      ))}
      {words && (
        <>
          <Select label="What it is for" value={charge} options={CHARGES} />
          <Button onClick={addWords}>Add “{words}” in words</Button>
        </>
      )}
    </div>
  );
}
