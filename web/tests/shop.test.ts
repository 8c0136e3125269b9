import { expect, test } from "vitest";
import { askedShown } from "../src/door/outbox/asked";
import type { Taken } from "../src/door/photos/keeping";
import type { AskedForRow, ItemRow, StockRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import {
  type Bought,
  lacking,
  type Run,
  runBody,
  runWords,
} from "../src/screens/porter/shop/bought";
import {
  isEnough,
  onShelf,
  proposed,
  together,
  usable,
} from "../src/screens/porter/shop/which_batch";

const MILK: Bought = {
  part: { batch: "b", item: "milk", quantity: { value: "2000", unit: "ml" }, area: "cold-room" },
  item: "Milk",
  words: "1 x 2 l bottle",
};

const RUN: Run = { shop: " Corner shop ", total: "13.85", lines: [MILK], others: ["ice"] };

test("[LG6] a shop run is its shop, what was paid, its receipt and what matters", () => {
  const receipt = { id: "0196f000-0000-7000-8000-000000000001", bytes: new Blob() } as Taken;
  expect(runBody(RUN, [receipt], "GBP")).toEqual({
    shop: "Corner shop",
    total: { minor: 1385, currency: "GBP" },
    lines: [MILK.part],
    others: ["ice"],
    photos: [receipt.id],
  });
});

test("[LG6] a shop alone is enough, and nothing is made up of what is not said", () => {
  const alone: Run = { shop: "Corner shop", total: "", lines: [], others: [] };
  expect(lacking(alone, "GBP")).toBeNull();
  expect(runBody(alone, [], "GBP")).toEqual({ shop: "Corner shop", lines: [], others: [] });
  expect(runWords(alone, "GBP")).toBe("Corner shop");
});

test("a shop run without a shop, or a sum that is none, is said before it is recorded", () => {
  expect(lacking({ ...RUN, shop: " " }, "GBP")).toContain("which shop");
  expect(lacking({ ...RUN, total: "1,385.0.0" }, "GBP")).toContain("13.85");
  // a currency has the decimal places it has (ISO 4217: JPY 0)
  expect(lacking({ ...RUN, total: "13.85" }, "JPY")).not.toBeNull();
});

test("it says in a few words what it was", () => {
  expect(runWords(RUN, "GBP")).toBe("Corner shop, 13.85 GBP, 2 things");
});

function batch(label: string, more: Partial<StockRow>): StockRow {
  const nothing = { value: "0", unit: "ml" };
  return {
    label,
    batch: label,
    item_id: "milk",
    state: "sealed",
    usable: true,
    usable_until: "2027-03-20T23:59:59Z",
    good_until: null,
    on_hand: { value: "1000", unit: "ml" },
    on_hold: nothing,
    emergency: nothing,
    ...more,
  } as StockRow;
}

test("[AL1] what is open goes before the others, then what dies first", () => {
  const rows = [
    batch("late", {}),
    batch("soon", { usable_until: "2027-03-12T23:59:59Z" }),
    batch("open", { state: "opened", usable_until: "2027-03-14T23:59:59Z" }),
    batch("frozen", { state: "frozen", usable_until: "2027-03-11T23:59:59Z" }),
    batch("dead", { usable: false }),
    batch("held", { on_hold: { value: "1000", unit: "ml" } }),
    batch("cream", { item_id: "cream" }),
  ];
  const found = usable(rows, "milk");
  expect(found.map(({ label }) => label)).toEqual(["open", "soon", "late", "frozen"]);
  expect(together(found)).toBe("4000");
});

test("the last amount, one pack and all that is left are proposed, each once and none too much", () => {
  const packs = [
    { pack: "500 ml carton", quantity: { value: "500", unit: "ml" } },
    { pack: "1 l bottle", quantity: { value: "1000", unit: "ml" } },
    { pack: "2 l bottle", quantity: { value: "2000", unit: "ml" } },
  ];
  const item = { packs } as ItemRow;
  const words = (last: string | null) =>
    proposed(item, batch("m", {}), last).map(({ words, quantity }) => [words, quantity.value]);
  expect(words(null)).toEqual([
    ["500 ml carton", "500"],
    ["1 l bottle", "1000"],
  ]);
  expect(words("250")[0]).toEqual(["as the last time", "250"]);
  expect(words("5000")).toHaveLength(2);
});

test("what is on hold or kept for an emergency is not on the shelf to be used", () => {
  const row = batch("m", { emergency: { value: "400", unit: "ml" } });
  expect(onShelf(row)).toBe("600");
  expect(isEnough(row, "600")).toBe(true);
  expect(isEnough(row, "600.5")).toBe(false);
});

function entry(id: string, kind: string, body: object, words = ""): Entry {
  return {
    id,
    words,
    command: { id, kind, body, at: "2027-03-10T07:00:00Z", person: "Pia" },
  } as Entry;
}

const OUT = entry("1", "run_out", { item: "cream", note: "for the tart" }, "Cream");

test("[SY4] what is asked for here is shown before the house has heard of it", () => {
  const shown = askedShown([], [OUT, entry("2", "ask_for", { words: "bin liners" })]);
  expect(shown.map(({ item, words }) => [item, words])).toEqual([
    ["Cream", "for the tart"],
    [null, "bin liners"],
  ]);
});

test("[SY4] what was bought or taken back since is asked for no more, and is asked again with it", () => {
  const run = entry("2", "shop_run", { shop: "s", lines: [{ item: "cream" }] });
  const back = (id: string) => entry("3", "correct", { command: id, reason: "mistake" });
  expect(askedShown([], [OUT, run])).toEqual([]);
  expect(askedShown([], [OUT, back("1")])).toEqual([]);
  expect(askedShown([], [OUT, run, back("2")])).toHaveLength(1);
  const told = [
    { asked: "9", item_id: "cream" },
    { asked: "8", item_id: null },
  ] as AskedForRow[];
  expect(askedShown(told, [run])).toEqual([told[1]]);
  expect(askedShown(told, [back("8")])).toEqual([told[0]]);
});

test("[SY4] the order desk's *done* closes every asking for the item", () => {
  const told = ["7", "8", "9"].map((asked) => ({
    asked,
    item_id: asked === "9" ? null : "cream",
  })) as AskedForRow[];
  expect(askedShown(told, [entry("2", "tick_off", { asked: "7" })])).toEqual([told[2]]);
  expect(askedShown(told, [entry("2", "tick_off", { asked: "9" })])).toHaveLength(2);
});
