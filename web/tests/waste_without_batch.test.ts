import { describe, expect, it } from "vitest";
import type { DayMark, ItemRow } from "../src/door/rows";
import { weighed } from "../src/screens/manager/waste/lost";
import {
  amountOf,
  bodyOf,
  dishesOf,
  unitsOf,
  type What,
} from "../src/screens/porter/waste/without_batch";

const BUTTER: What = {
  kind: "item",
  item: { id: "butter", item: "Butter", unit: "g", counted: true } as ItemRow,
};
const LAMB: What = { kind: "dish", dish: "Lamb shoulder" };
const POT: What = { kind: "words", words: " a pot of soup " };

describe("what stood in no batch", () => {
  it("is a dish of today's meals, once, whatever else stands on the days", () => {
    const service = (day: string, ...dishes: string[]) => ({ what: "service", day, dishes });
    const marks = [
      service("2027-03-10", "Soup", "Lamb shoulder"),
      service("2027-03-10", "Soup"),
      service("2027-03-11", "Sole"),
      { what: "delivery", day: "2027-03-10" },
    ] as unknown as DayMark[];
    expect(dishesOf(marks, "2027-03-10")).toEqual(["Soup", "Lamb shoulder"]);
  });

  it("is measured as its item is, a dish in plates first", () => {
    expect(unitsOf(BUTTER)).toEqual(["g"]);
    expect(unitsOf(LAMB)[0]).toBe("each");
    expect(amountOf(LAMB, "1", "each")).toBe("1 plate of");
    expect(amountOf(POT, "1.5 kg", "g")).toBe("1.5 kg");
  });

  it("is told as one thing, and not before it is known what and how much", () => {
    expect(bodyOf(LAMB, "2", "each", "came back from the table", "bin")).toEqual({
      dish: "Lamb shoulder",
      quantity: { value: "2", unit: "each" },
      reason: "came back from the table",
      destination: "bin",
    });
    expect(bodyOf(BUTTER, "0.2 kg", "g", "spoiled", "bin")).toMatchObject({
      item: "butter",
      quantity: { value: "200", unit: "g" },
    });
    expect(bodyOf(POT, "1", "ml", "spoiled", "bin")).toMatchObject({ words: "a pot of soup" });
    expect(bodyOf(POT, "0", "ml", "spoiled", "bin")).toBeNull();
    expect(bodyOf({ kind: "words", words: " " }, "1", "g", "spoiled", "bin")).toBeNull();
  });

  it("weighs what was weighed; the rest is a number of records", () => {
    const rows = [{ weight: { value: "300", unit: "g" as const } }, { weight: null }];
    expect(weighed(rows)).toEqual({ grams: "300", unweighed: 1 });
  });
});
