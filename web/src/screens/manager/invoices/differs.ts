import type { Money } from "../../../door/quantities";
import type { InvoiceDifference } from "../../../door/rows";
import { amount, money } from "../../../words/amounts";
import {
  billedOf,
  creditOf,
  type Draft,
  type GoodsLine,
  isOfItsOwn,
  onIt,
  typed,
  type WordsLine,
} from "./draft";

const PRICE_FROM: Record<NonNullable<InvoiceDifference["price_from"]>, string> = {
  confirmed: "as the supplier confirmed",
  ordered: "as it was ordered",
  last_price: "as it cost last",
};

/** One thing in which an invoice differs, in a sentence, with what it is held against. */
export function differenceWords(row: InvoiceDifference): string {
  const { kind, item, words, quantity, price, price_from: from } = row;
  const [billed, held] = [money(row.billed), money(row.held_against)];
  const much = quantity ? amount(quantity) : "it";
  switch (kind) {
    case "price": {
      const each = price && from ? ` (${money(price)} a pack, ${PRICE_FROM[from]})` : "";
      return `${item}: billed ${billed}, agreed ${held}${each}`;
    }
    case "not_received":
      return `${item}: ${much} billed and did not come`;
    case "more_than_received":
      return `${item}: ${much} more billed than came`;
    case "not_billed":
      return `${item}: ${much} came and is not billed`;
    case "charge":
      return `Delivery: billed ${billed}, the terms say ${held}`;
    case "minimum":
      return `Small order: billed ${billed}, ${held} lacked of the minimum`;
    case "in_words":
      return `${words}: nothing in the books stands against it`;
    case "credit_left":
      return `A credit of ${money(turned(row.held_against))} was owed and is not taken off`;
    case "credit_other":
      return `${money(turned(row.billed))} is taken off, and a credit of ${money(turned(row.held_against))} was owed`;
    case "credit_unknown":
      return `${money(turned(row.billed))} is taken off, and no credit was expected`;
  }
}

function turned(sum: Money): Money {
  return { ...sum, minor: -sum.minor };
}

/** What is agreed of a difference; empty where nothing is yet. */
export function agreedWords({
  credit,
  agreed,
  agreed_words: words,
  agreed_by: by,
}: InvoiceDifference) {
  if (credit?.is_recorded) return credit.note ? `Credited: ${credit.note}` : "Written off";
  if (!agreed) return "";
  const said = agreed === "paid" ? "Paid as it is" : "A credit is asked for";
  return `${said} · ${by}${words ? `: ${words}` : ""}`;
}

/** `0.40 GBP more`, `0.40 GBP less`. */
function apart(minor: number, currency: string): string {
  return `${money({ minor: Math.abs(minor), currency })} ${minor > 0 ? "more" : "less"}`;
}

/** What a line that is being typed in differs in from what came as agreed; empty where it agrees. */
export function goodsDiffer(draft: Draft, line: GoodsLine): string {
  const { currency } = draft;
  const credit = creditOf(draft, line);
  const off = credit ? typed(credit.amount, currency) : 0;
  const billed = billedOf(line, currency);
  if (billed === null || off === null || billed - off === line.due) return "";
  const came = line.came?.packs ?? 0;
  const packs = line.packs.value;
  const much = packs === came ? "" : `, ${packs} billed and ${came} came`;
  return `${line.item}: ${apart(billed - off - line.due, currency)} than agreed${much}`;
}

/** The same of a line in words. */
export function wordsDiffer({ words, due, amount: of }: WordsLine, currency: string): string {
  const billed = typed(of, currency);
  if (billed === null || due === null || billed === due) return "";
  return `${words}: ${apart(billed - due, currency)} than agreed`;
}

/** Everything in which an invoice that is being typed in differs, a sentence each. */
export function draftDiffers(draft: Draft): string[] {
  const { goods, words } = onIt(draft);
  const { currency } = draft;
  const others = draft.credits.filter((credit) => !isOfItsOwn(draft, credit));
  const credits = others.map(({ owed, amount: of }) => {
    const off = typed(of, currency) ?? 0;
    if (!owed)
      return off > 0 ? `${money({ minor: off, currency })} taken off that nobody expected` : "";
    if (off === owed.value.minor) return "";
    return off === 0
      ? `${owed.about}: a credit of ${money(owed.value)} is owed and not taken off`
      : `${owed.about}: ${apart(off - owed.value.minor, currency)} taken off than is owed`;
  });
  return [
    ...goods.map((line) => goodsDiffer(draft, line)),
    ...words.map((line) => wordsDiffer(line, currency)),
    ...credits,
  ].filter(Boolean);
}
