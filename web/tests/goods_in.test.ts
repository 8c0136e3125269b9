import { describe, expect, it } from "vitest";
import type { CodeRow, ExpectedLine, ExpectedRow } from "../src/door/rows";
import { Burst } from "../src/screens/porter/burst";
import { keysOf, linesOf, pathOf } from "../src/screens/porter/keys";
import { degrees, inUnit } from "../src/screens/porter/line_state";
import { answersTo, looksLikeCode } from "../src/words/find";
import { endOf, keyedDate, lastDay, packDate } from "../src/words/pack_date";
import { less, reaching, sign, times } from "../src/words/sums";

describe("sums of decimal texts", () => {
  it("is exact where floating point is not", () => {
    expect(times("0.1", 3)).toBe("0.3");
    expect(times("9007199254740993", 3)).toBe("27021597764222979");
    expect(less("0.3", "0.1")).toBe("0.2");
    expect(less("4500", "5000")).toBe("-500");
    expect(sign(less("1.50", "1.5"))).toBe(0);
  });
  it("counts the packs that reach an amount", () => {
    expect(reaching("4000", "1000")).toBe(4);
    expect(reaching("4001", "1000")).toBe(5);
    expect(reaching("0", "1000")).toBe(0);
    expect(reaching("1000", "0")).toBe(0);
  });
});

describe("the date on a pack, keyed as digits", () => {
  const today = "2026-11-25";
  it.each([
    ["0512", "2026-12-05"],
    ["0501", "2027-01-05"],
    ["2411", "2026-11-24"],
    ["2609", "2026-09-26"],
    ["050128", "2028-01-05"],
    ["000328", "2028-03"],
  ])("%s read on %s", (digits, date) => {
    expect(keyedDate(digits, today)).toBe(date);
  });
  it.each(["", "05", "051", "05122", "3102", "0013", "290227", "001328"])(
    "%s is no date",
    (digits) => {
      expect(keyedDate(digits, today)).toBeNull();
    },
  );
  it("knows the twenty-ninth of February where there is one", () => {
    expect(keyedDate("2902", "2028-01-10")).toBe("2028-02-29");
    expect(keyedDate("2902", "2027-01-10")).toBeNull();
  });
  it("says it with its year, to be held against the pack", () => {
    expect(packDate("2027-03-19")).toBe("Fri 19 Mar 2027");
    expect(packDate("2028-03")).toBe("March 2028");
    expect(lastDay("2028-02")).toBe("2028-02-29");
  });
  it("SL1 ends with its day in the house's zone, right across both clock changes", () => {
    expect(endOf("2027-03-12", "Europe/London")).toBe("2027-03-12T23:59:59Z");
    expect(endOf("2027-03-28", "Europe/London")).toBe("2027-03-28T22:59:59Z");
    expect(endOf("2027-10-31", "Europe/London")).toBe("2027-10-31T23:59:59Z");
    expect(endOf("2027-03-12", "Pacific/Auckland")).toBe("2027-03-12T10:59:59Z");
    expect(endOf("2027-03-12", "America/New_York")).toBe("2027-03-13T04:59:59Z");
  });
});

describe("finding by a few letters", () => {
  it("puts the beginning of a name before the beginning of a word before its middle", () => {
    expect(answersTo("Crème fraîche", "creme")).toBe(0);
    expect(answersTo("Butter, salted", "salt")).toBe(1);
    expect(answersTo("Chickpeas, tinned", "pea")).toBe(2);
    expect(answersTo("Whole milk", "oat")).toBeNull();
  });
  it("tells a code from a name", () => {
    expect(looksLikeCode("9521234000372")).toBe(true);
    expect(looksLikeCode("(01)09521234000372")).toBe(true);
    expect(looksLikeCode("milk")).toBe(false);
    expect(looksLikeCode("B-0241")).toBe(false);
  });
});

describe("a handheld scanner among a person's keys", () => {
  function hand(text: string, gap: number, from = 0, burst = new Burst<string>()) {
    [...text].forEach((key, place) => {
      burst.add(key, from + place * gap, text.slice(0, place));
    });
    return burst;
  }
  const CASE = "19521234000379";
  it.each([4, 20, 35])("hears what comes %i ms apart and ends with Enter", (gap) => {
    expect(hand(CASE, gap).end(CASE.length * gap)).toEqual({ text: CASE, before: "" });
  });
  it.each([70, 90, 140])("leaves a person's keys, %i ms apart, alone", (gap) => {
    expect(hand("orange juice", gap).end(12 * gap)).toBeNull();
  });
  it("leaves short runs alone, and an Enter that comes late", () => {
    expect(hand("12.5", 4).end(16)).toBeNull();
    expect(hand(CASE, 4).end(500)).toBeNull();
  });
  it("begins anew after a pause, or a key that no code has", () => {
    const typed = hand("lot 12345", 90);
    expect(hand(CASE, 4, 1_000, typed).end(1_060)).toEqual({ text: CASE, before: "" });
    const left = hand("lot 12345", 90);
    left.forget();
    expect(hand(CASE, 4, 810, left).end(870)).toEqual({ text: CASE, before: "" });
    expect(left.end(875)).toBeNull();
  });
  it("bears one slow key of a busy machine", () => {
    const burst = hand("195212", 20);
    hand("34000379", 20, 280, burst);
    expect(burst.end(430)?.text).toBe(CASE);
  });
});

function line(item: string, pack: string): ExpectedLine {
  return { item, item_id: item, pack, pack_id: `dairy/${item}/${pack}` } as ExpectedLine;
}

function order(supplier: string, lines: ExpectedLine[]): ExpectedRow {
  return { order: `${supplier}/2026-11-25`, supplier, lines } as ExpectedRow;
}

function match(kind: "pack" | "item", item: string, pack: string | null, supplier = "dairy") {
  const pack_id = pack && `${supplier}/${item}/${pack}`;
  return {
    kind,
    item,
    item_id: item,
    pack,
    pack_id,
    supplier: pack && supplier,
  } as CodeRow["matches"][number];
}

describe("what a code means at the door", () => {
  const orders = [order("dairy", [line("milk", "crate"), line("juice", "carton")])];
  it("opens the line whose pack it is", () => {
    const keys = keysOf([match("pack", "milk", "crate"), match("item", "milk", null)], orders);
    expect(keys.map(({ pack }) => pack)).toEqual(["crate"]);
    expect(keys.map((key) => pathOf(key, null))).toEqual(["/goods-in/dairy/2026-11-25/milk/crate"]);
  });
  it("asks whether it is the single or the case", () => {
    const bottle = [match("pack", "milk", "bottle"), match("item", "milk", null)];
    expect(keysOf(bottle, orders).map(({ pack }) => pack)).toEqual(["bottle", "crate"]);
    const both = [match("pack", "milk", "bottle"), match("pack", "milk", "crate")];
    expect(keysOf(both, orders).map(({ pack }) => pack)).toEqual(["crate", "bottle"]);
  });
  it("opens goods that are on no order by their item", () => {
    const [key, ...more] = keysOf([match("pack", "cream", "pot", "shop")], orders);
    expect(more).toEqual([]);
    expect(key && pathOf(key, "dairy/2026-11-25")).toBe("/goods-in/dairy/2026-11-25/cream");
    expect(key && pathOf(key, null)).toBe("/goods-in/without-order/cream");
  });
  it("does not ask about another supplier's pack of the same number", () => {
    const sold = [match("pack", "milk", "crate", "shop"), match("pack", "milk", "crate")];
    expect(keysOf(sold, orders)).toHaveLength(1);
    expect(keysOf(sold, [])).toHaveLength(1);
  });
  it("knows every line of an item by its name", () => {
    expect(linesOf("juice", orders)).toHaveLength(1);
    expect(linesOf("cream", orders)).toEqual([]);
  });
});

describe("amounts and temperatures as they are typed", () => {
  it("reads a comma and the larger unit", () => {
    expect(inUnit("1,12 kg", "g")).toBe("1120");
    expect(inUnit(" 750 ", "ml")).toBe("750");
    expect(inUnit("2 l", "g")).toBeNull();
    expect(inUnit("two", "g")).toBeNull();
    // fifteen hundred or one and a half: nobody guesses what stands on a shelf
    expect(inUnit("1,500", "g")).toBeNull();
    expect(inUnit("1,500 kg", "g")).toBeNull();
  });
  it("reads a minus of any keyboard, and nothing where nothing was read", () => {
    expect(degrees("−18,5")).toBe("-18.5");
    expect(degrees("-")).toBeNull();
    expect(degrees(" ")).toBeNull();
  });
});
