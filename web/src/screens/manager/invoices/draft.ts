import { type Signal, signal } from "@preact/signals";
import type { BodyOf } from "../../../door/command";
import type { Money } from "../../../door/quantities";
import type { NotBilledRow, OwedRow, PriceRow } from "../../../door/rows";
import { minorUnits, money } from "../../../words/amounts";

type Came = NotBilledRow["lines"][number];
type Body = BodyOf<"record_invoice">;
export type ChargeFor = NonNullable<Body["lines"][number]["charge_for"]>;

/** A line of the invoice for packs of an item; `came` null: nobody saw anything of it. */
export interface GoodsLine {
  key: string;
  /** The delivery it came with; empty where it was added by hand. */
  of: string;
  item: string;
  pack: string;
  packId: string;
  came: Came | null;
  /** What it should come to, and what one pack does, in minor units. */
  due: number;
  price: number;
  packs: Signal<number>;
  amount: Signal<string>;
}

/** A line in words: a charge of the terms, what was ordered in words, or what was added by hand. */
export interface WordsLine {
  key: string;
  of: string;
  words: string;
  chargeFor: ChargeFor;
  /** What it should come to; null where whatever is printed is as agreed. */
  due: number | null;
  amount: Signal<string>;
}

/** A credit that is owed, and what was taken off for it. */
export interface CreditLine {
  key: string;
  owed: OwedRow | null;
  amount: Signal<string>;
}

/** An invoice as it is being typed in, beginning with what came and was agreed. */
export interface Draft {
  supplierId: string;
  currency: string;
  /** The orders that came and are not billed. */
  orders: string[];
  goods: Signal<GoodsLine[]>;
  words: Signal<WordsLine[]>;
  credits: CreditLine[];
  /** The deliveries it is not for. */
  left: Signal<ReadonlySet<string>>;
  /** What stood in it when it was begun. */
  begunAs: string;
}

/** What tells deliveries apart: an order, or the instant at which something came unordered. */
export function keyOf(row: NotBilledRow): string {
  return row.order ?? row.delivery;
}

/** A sum as a person types it: `4.60`. */
export function figures(sum: Money): string {
  return money(sum).slice(0, -sum.currency.length - 1);
}

/** The invoice that would agree: what came at its agreed price, with the charge of the terms. */
export function draftOf(
  supplierId: string,
  currency: string,
  deliveries: NotBilledRow[],
  owed: OwedRow[],
): Draft {
  const credits = owed.filter(({ supplier_id: of }) => of === supplierId);
  const draft = {
    supplierId,
    currency,
    orders: deliveries.flatMap(({ order }) => order ?? []),
    goods: signal(deliveries.flatMap((row) => row.lines.map((line) => goodsOf(keyOf(row), line)))),
    words: signal(deliveries.flatMap(wordsOf)),
    credits: [
      ...credits.map((each) => ({ key: each.credit, owed: each, amount: signal("") })),
      { key: "", owed: null, amount: signal("") },
    ],
    left: signal<ReadonlySet<string>>(new Set()),
    begunAs: "",
  };
  return { ...draft, begunAs: standsAs(draft) };
}

/** All that can be changed of a draft, as text. */
function standsAs({ goods, words, credits, left }: Draft): string {
  return JSON.stringify([
    goods.value.map(({ key, packs, amount }) => [key, packs.value, amount.value]),
    words.value.map(({ key, amount }) => [key, amount.value]),
    credits.map(({ amount }) => amount.value),
    [...left.value],
  ]);
}

/** Whether somebody has changed anything of it. */
export function isTouched(draft: Draft): boolean {
  return standsAs(draft) !== draft.begunAs;
}

function goodsOf(of: string, came: Came): GoodsLine {
  return {
    key: `${of} ${came.pack_id}`,
    of,
    item: came.item,
    pack: came.pack,
    packId: came.pack_id,
    came,
    due: came.value.minor,
    price: came.price.minor,
    packs: signal(came.packs),
    amount: signal(figures(came.value)),
  };
}

function wordsOf(row: NotBilledRow): WordsLine[] {
  const of = keyOf(row);
  const ordered: WordsLine[] = row.words.map((words) => ({
    key: `${of} ${words}`,
    of,
    words,
    chargeFor: "other",
    due: null,
    amount: signal(""),
  }));
  if (row.charge.minor === 0) return ordered;
  const charge: WordsLine = {
    key: `${of} charge`,
    of,
    words: "Delivery",
    chargeFor: "delivery",
    due: row.charge.minor,
    amount: signal(figures(row.charge)),
  };
  return [...ordered, charge];
}

/** A line for a pack of which nothing came, as far as anybody wrote down. */
export function added(row: PriceRow): GoodsLine {
  return {
    key: `by hand ${row.pack_id} ${Date.now()}`,
    of: "",
    item: row.item,
    pack: row.pack,
    packId: row.pack_id,
    came: null,
    due: 0,
    price: row.price.minor,
    packs: signal(1),
    amount: signal(figures(row.price)),
  };
}

/** So many packs more or fewer are billed; the amount follows them as long as nobody typed another. */
export function step(line: GoodsLine, by: number, currency: string): void {
  const before = line.packs.value;
  const packs = Math.max(0, before + by);
  const stood = typed(line.amount, currency);
  if (stood === before * line.price || (stood === line.due && line.due > 0)) {
    const isAsCame = packs === line.came?.packs;
    const minor = isAsCame ? line.due : packs * line.price;
    line.amount.value = figures({ minor, currency });
  }
  line.packs.value = packs;
}

/** A line in words that is added by hand. */
export function addedInWords(words: string, chargeFor: ChargeFor): WordsLine {
  const isAsPrinted = chargeFor === "tax";
  const key = `by hand ${words} ${Date.now()}`;
  return { key, of: "", words, chargeFor, due: isAsPrinted ? null : 0, amount: signal("") };
}

/** The credit of the very line that is billed: what is taken off for it makes that line smaller. */
export function creditOf(draft: Draft, line: GoodsLine): CreditLine | undefined {
  return draft.credits.find(({ owed }) => owed?.order === line.of && owed.pack_id === line.packId);
}

/** Whether a credit is for what this invoice bills. */
export function isOfItsOwn(draft: Draft, { owed }: CreditLine): boolean {
  return onIt(draft).goods.some(({ of }) => of !== "" && of === owed?.order);
}

/** What is on the invoice: without the deliveries it is not for, and lines that are struck. */
export function onIt(draft: Draft) {
  const isLeft = ({ of }: { of: string }) => draft.left.value.has(of);
  return {
    goods: draft.goods.value.filter((line) => !isLeft(line)),
    words: draft.words.value.filter((line) => !isLeft(line)),
  };
}

/** A sum as it is typed, in minor units: nothing where it is empty, null where it cannot be read. */
export function typed(amount: Signal<string>, currency: string): number | null {
  return amount.value.trim() ? minorUnits(amount.value, currency) : 0;
}

/** What a line of goods is billed at: nothing where no pack of it is on the invoice. */
export function billedOf(line: GoodsLine, currency: string): number | null {
  return line.packs.value === 0 ? 0 : typed(line.amount, currency);
}

/** What the lines less the credits come to, in minor units; null where something cannot be read. */
export function sumOf(draft: Draft): number | null {
  const { goods, words } = onIt(draft);
  const off = draft.credits.map(({ amount }) => typed(amount, draft.currency));
  const sums = [
    ...goods.map((line) => billedOf(line, draft.currency)),
    ...words.map(({ amount }) => typed(amount, draft.currency)),
    ...off.map((minor) => (minor === null ? null : -minor)),
  ];
  return sums.reduce<number | null>(
    (sum, minor) => (sum === null || minor === null ? null : sum + minor),
    0,
  );
}

/** Whether nothing is on the invoice yet. */
export function isEmpty(draft: Draft): boolean {
  const { goods, words } = onIt(draft);
  return (
    goods.every(({ packs }) => packs.value === 0) &&
    words.every(({ amount }) => !amount.value.trim())
  );
}

/** The invoice as the house takes it; null where a sum cannot be read, or nothing is on it. */
export function bodyOf(
  draft: Draft,
  printed: { number: string; date: string; total: number },
): Body | null {
  const { currency } = draft;
  if (sumOf(draft) === null || isEmpty(draft)) return null;
  const { goods, words } = onIt(draft);
  const sum = (minor: number | null) => ({ minor: minor ?? 0, currency });
  const lines: Body["lines"] = [
    ...goods
      .filter(({ packs }) => packs.value > 0)
      .map((line) => ({
        item: line.item,
        pack: line.packId,
        packs: line.packs.value,
        amount: sum(billedOf(line, currency)),
      })),
    ...words
      .filter(({ amount }) => amount.value.trim())
      .map(({ words: text, chargeFor, amount }) => ({
        text,
        charge_for: chargeFor,
        amount: sum(typed(amount, currency)),
      })),
  ];
  const credits = draft.credits
    .filter(({ amount }) => (typed(amount, currency) ?? 0) > 0)
    .map(({ owed, amount }) => ({
      amount: sum(typed(amount, currency)),
      ...(owed ? { credit: owed.credit } : {}),
    }));
  return {
    supplier: draft.supplierId,
    number: printed.number,
    date: printed.date,
    lines,
    credits,
    total: { minor: printed.total, currency },
    orders: draft.orders.filter((order) => !draft.left.value.has(order)),
  };
}
