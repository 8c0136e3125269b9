import { describe, expect, it } from "vitest";
import { endOf, lastDay } from "../src/door/house_days";
import type { CodeRow, ExpectedLine, ExpectedRow } from "../src/door/rows";
import { less, reaching, sign, times } from "../src/door/sums";
import { Burst } from "../src/screens/porter/burst";
import { unlike } from "../src/screens/porter/instead";
import { keysOf, linesOf, pathOf } from "../src/screens/porter/keys";
import type { Facts } from "../src/screens/porter/line_facts";
import { judged, limitWords, warmthWords } from "../src/screens/porter/warmth";
import { answersTo, looksLikeCode } from "../src/words/find";
import { keyedDate, packDate } from "../src/words/pack_date";
import { degrees, tenths } from "../src/words/temperature";
import { inUnit } from "../src/words/typed";

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
    expect(inUnit("1,500", "g", ".")).toBeNull();
    expect(inUnit("1,500 kg", "g", ".")).toBeNull();
  });
  it("MS2 asks about 1.500 too where a comma is the decimal mark", () => {
    expect(inUnit("1.500", "g", ",")).toBeNull();
    expect(inUnit("1.500 kg", "g", ",")).toBeNull();
    expect(inUnit("1,500 kg", "g", ",")).toBeNull();
    expect(inUnit("1.5 kg", "g", ",")).toBe("1500");
    expect(inUnit("0.125", "g", ",")).toBe("0.125");
    expect(inUnit("1.500 kg", "g", ".")).toBe("1500");
  });
  it("reads a minus of any keyboard, and nothing where nothing was read", () => {
    expect(degrees("−18,5")).toBe("-18.5");
    expect(degrees("-")).toBeNull();
    expect(degrees(" ")).toBeNull();
  });
});

describe("how warm it came", () => {
  // NIST SP 811, appendix B.8: t/°C = (t/°F - 32)/1.8; 41 °F is 5 °C, 0 °F -17.8 °C, -0.4 °F -18 °C
  it.each([
    ["41", 50],
    ["0", -178],
    ["-0.4", -180],
    ["135", 572],
    ["70", 211],
  ])("%s °F in tenths of a degree Celsius is %i", (typed, celsius) => {
    expect(tenths(typed, "F")).toBe(celsius);
  });
  it("reads what a thermometer shows, and nothing else", () => {
    expect(tenths("3,4")).toBe(34);
    expect(tenths("−18")).toBe(-180);
    expect(tenths("-0.5")).toBe(-5);
    expect(tenths("4.25")).toBeNull();
    expect(tenths("warm")).toBeNull();
  });

  const limits = (accept: string, refuse: string, hot = false) => ({
    food: "food",
    hot,
    accept_c: accept,
    accept: `${accept} °C`,
    accept_source: "a code",
    refuse_c: refuse,
    refuse: `${refuse} °C`,
    refuse_source: "another",
  });
  // Regulation (EC) No 853/2004, Annex III: poultry 4 °C; Directive 89/108/EEC: -18 and -15 °C; the Food
  // Hygiene Regulations (England) 2013, Schedule 4: 8 °C cold and 63 °C hot. The rows: computed.
  it.each([
    ["4", "8", false, "4", "accept"],
    ["4", "8", false, "4.1", "ask"],
    ["4", "8", false, "8", "ask"],
    ["4", "8", false, "8.1", "refuse"],
    ["-18", "-15", false, "-18", "accept"],
    ["-18", "-15", false, "-17.9", "ask"],
    ["-18", "-15", false, "-14.9", "refuse"],
    ["63", "63", true, "63", "accept"],
    ["63", "63", true, "62.9", "refuse"],
  ] as const)("SL5 up to %s and %s °C (hot: %s), %s is %s", (accept, refuse, hot, found, said) => {
    expect(judged(limits(accept, refuse, hot), tenths(found) ?? 0)).toBe(said);
  });
  it("SL5 is answered plainly, with the limit", () => {
    const poultry = limits("4", "8");
    expect(limitWords(poultry)).toBe(
      "Up to 4 °C it goes in; warmer, ask the chef; past 8 °C it is refused.",
    );
    expect(limitWords(limits("63", "63", true))).toBe("From 63 °C it goes in; colder is refused.");
    expect(warmthWords(poultry, "accept", "3,4", "C")).toBe("Yes: 3.4 °C is within 4 °C.");
    expect(warmthWords(poultry, "ask", "5", "C")).toMatch(/^Ask the chef: 5 °C is past 4 °C/);
    expect(warmthWords(poultry, "refuse", "9", "C")).toMatch(/^No: 9 °C is past 8 °C. Refuse it/);
  });
});

describe("what came instead", () => {
  const item = (id: string, contains: string[], may_contain: string[], unknown: string[]) => ({
    id,
    item: id,
    contains,
    may_contain,
    unknown,
  });
  it("AL3 tells each allergen of which less is known to be absent", () => {
    const butter = item("butter", ["milk"], [], ["celery"]);
    const spread = item("spread", ["soy"], ["milk", "nuts"], ["celery", "lupin"]);
    const facts = { item: spread, items: [butter, spread] } as unknown as Facts;
    expect(unlike(facts, { item: "Butter", item_id: "butter", pack_id: "" })).toEqual([
      "Unlike Butter, it contains soy: read the label.",
      "Unlike Butter, it may contain nuts: read the label.",
      "Unlike Butter, nobody knows whether it is free of lupin: read the label.",
    ]);
    expect(
      unlike({ ...facts, item: butter } as Facts, { item: "B", item_id: "butter", pack_id: "" }),
    ).toEqual([]);
  });
});
