import { describe, expect, it } from "vitest";
import type { NotBilledRow, OwedRow, PriceRow } from "../src/door/rows";
import { draftDiffers } from "../src/screens/manager/invoices/differs";
import {
  added,
  addedInWords,
  bodyOf,
  type Draft,
  draftOf,
  isEmpty,
  isTouched,
  step,
  sumOf,
} from "../src/screens/manager/invoices/draft";

const gbp = (minor: number) => ({ minor, currency: "GBP" });
const ORDER = "dairy/2027-03-10";

const line = (item: string, packs: number, price: number, ordered = packs) => ({
  item,
  pack: "block",
  pack_id: item,
  counted: true,
  packs,
  ordered_packs: ordered,
  price: gbp(price),
  value: gbp(packs * price),
  refused: [],
});

const DELIVERY = {
  order: ORDER,
  supplier_id: "dairy",
  delivery: "2027-03-10T06:45:00Z",
  lines: [line("Butter", 2, 230), line("Juice", 3, 290, 4)],
  words: ["Goat curd"],
  charge: gbp(400),
} as unknown as NotBilledRow;
const SECOND = {
  ...DELIVERY,
  order: "dairy/2027-03-12",
  delivery: "2027-03-12T06:45:00Z",
  lines: [line("Milk", 1, 215)],
  words: [],
  charge: gbp(0),
} as unknown as NotBilledRow;
const OF_JUICE: OwedRow = {
  credit: "juice",
  supplier_id: "dairy",
  order: ORDER,
  pack_id: "Juice",
  about: "Juice",
  value: gbp(290),
};
const OLD: OwedRow = { ...OF_JUICE, credit: "old", order: "dairy/2027-03-03", about: "Cheese" };

const begun = (deliveries = [DELIVERY], owed: OwedRow[] = []) =>
  draftOf("dairy", "GBP", deliveries, owed);
const goods = (draft: Draft, item: string) => {
  const found = draft.goods.value.find((each) => each.item === item);
  if (!found) throw new Error(`no ${item}`);
  return found;
};
const PRINTED = { number: "7", date: "2027-03-10", total: 1_730 };

describe("an invoice that is typed in", () => {
  it("begins as the one that would agree", () => {
    const draft = begun();
    expect(sumOf(draft)).toBe(2 * 230 + 3 * 290 + 400);
    expect(draftDiffers(draft)).toEqual([]);
    expect(isTouched(draft)).toBe(false);
    const body = bodyOf(draft, PRINTED);
    expect(body?.orders).toEqual([ORDER]);
    expect(body?.lines.map((each) => each.text ?? each.item)).toEqual([
      "Butter",
      "Juice",
      "Delivery",
    ]);
  });

  it("bills as many packs as are stepped to, at the price agreed, until another sum is typed", () => {
    const draft = begun();
    const juice = goods(draft, "Juice");
    step(juice, 1, "GBP");
    expect(juice.amount.value).toBe("11.60");
    expect(draftDiffers(draft)).toEqual(["Juice: 2.90 GBP more than agreed, 4 billed and 3 came"]);
    juice.amount.value = "11.00";
    step(juice, -1, "GBP");
    expect(juice.amount.value).toBe("11.00");
    expect(draftDiffers(draft)).toEqual(["Juice: 2.30 GBP more than agreed"]);
    expect(isTouched(draft)).toBe(true);
  });

  it("has no line for what is not on it", () => {
    const draft = begun();
    step(goods(draft, "Butter"), -2, "GBP");
    expect(draftDiffers(draft)).toEqual(["Butter: 4.60 GBP less than agreed, 0 billed and 2 came"]);
    expect(bodyOf(draft, PRINTED)?.lines.some(({ item }) => item === "Butter")).toBe(false);
  });

  it("is not for a delivery that is left out", () => {
    const draft = begun([DELIVERY, SECOND]);
    draft.left.value = new Set([ORDER]);
    expect(sumOf(draft)).toBe(215);
    expect(bodyOf(draft, PRINTED)?.orders).toEqual([SECOND.order]);
  });

  it("takes what was ordered in words as it is printed, and holds other words against nothing", () => {
    const draft = begun();
    const [curd] = draft.words.value;
    if (curd) curd.amount.value = "4.20";
    expect(draftDiffers(draft)).toEqual([]);
    const crate = addedInWords("Crate", "other");
    crate.amount.value = "1.50";
    const tax = addedInWords("Tax", "tax");
    tax.amount.value = "0.80";
    draft.words.value = [...draft.words.value, crate, tax];
    expect(draftDiffers(draft)).toEqual(["Crate: 1.50 GBP more than agreed"]);
    expect(bodyOf(draft, PRINTED)?.lines.at(-1)?.charge_for).toBe("tax");
  });

  it("tells a credit that is owed and not taken off, but not that of what it bills itself", () => {
    const draft = begun([DELIVERY], [OF_JUICE, OLD]);
    expect(draftDiffers(draft)).toEqual(["Cheese: a credit of 2.90 GBP is owed and not taken off"]);
    const [own, old] = draft.credits;
    step(goods(draft, "Juice"), 1, "GBP");
    if (own) own.amount.value = "2.90";
    if (old) old.amount.value = "2.90";
    expect(draftDiffers(draft)).toEqual([]);
    expect(bodyOf(draft, PRINTED)?.credits?.map(({ credit }) => credit)).toEqual(["juice", "old"]);
  });

  it("is not given while nothing is on it", () => {
    const draft = begun([]);
    expect(isEmpty(draft)).toBe(true);
    expect(bodyOf(draft, PRINTED)).toBeNull();
    expect(isEmpty(begun())).toBe(false);
  });

  it("is not given while a sum cannot be read", () => {
    const draft = begun();
    goods(draft, "Juice").amount.value = "about 9";
    expect(sumOf(draft)).toBeNull();
    expect(bodyOf(draft, PRINTED)).toBeNull();
  });

  it("holds what nobody saw against nothing", () => {
    const draft = begun();
    const cream = { item: "Cream", pack: "tub", pack_id: "cream", price: gbp(620) } as PriceRow;
    draft.goods.value = [...draft.goods.value, added(cream)];
    expect(draftDiffers(draft)).toEqual(["Cream: 6.20 GBP more than agreed, 1 billed and 0 came"]);
  });
});
