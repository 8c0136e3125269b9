import { describe, expect, it } from "vitest";
import type { Named } from "../src/door/outbox/batch_parts";
import { standingShown } from "../src/door/outbox/standing";
import type { StockRow, WasteRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import { grouped, mondayBefore, perCover, weeksOf } from "../src/screens/manager/waste/lost";
import { destinationsFor, died } from "../src/screens/porter/waste/why";

const NOW = new Date("2027-03-10T07:00:00Z");

function stock(batch: string, usable_until: string | null, value = "500"): StockRow {
  const on_hand = { value, unit: "g" };
  const nothing = { value: "0", unit: "g" };
  return {
    batch,
    label: `B-${batch}`,
    numbered: [] as string[],
    usable_until,
    area: "Larder",
    areas: { Larder: on_hand },
    on_hand,
    available: nothing,
    promised: nothing,
    on_hold: nothing,
    emergency: nothing,
  } as unknown as StockRow;
}

function entry(id: string, kind: string, body: object): Entry {
  return { id, command: { id, kind, body }, answered: null } as unknown as Entry;
}

const LARDER: Named = {
  zone: "Europe/London",
  area: (named) => ({ name: named, isFrozen: false }),
  item: (named) => ({ id: named, name: named, unit: "g" }),
};

describe("what died", () => {
  const rows = [
    stock("1", "2027-03-09T23:59:59Z"),
    stock("2", "2027-03-08T23:59:59Z"),
    stock("3", "2027-03-10T23:59:59Z"),
    stock("4", null),
    stock("5", "2027-03-01T00:00:00Z", "0"),
  ];

  it("is what is past its last usable moment and still there, the oldest first", () => {
    expect(died(rows, NOW).map(({ batch }) => batch)).toEqual(["2", "1"]);
  });

  it("is what is left once this phone threw a part of it away, and nothing once it threw all of it", () => {
    const throwing = (id: string, batch: string, value: string) =>
      entry(id, "waste", { batch, quantity: { value, unit: "g" } });
    const left = (...fresh: Entry[]) =>
      died(standingShown(rows, fresh, fresh, LARDER) as StockRow[], NOW).map(
        ({ batch, on_hand }) => [batch, on_hand.value],
      );
    const records = [throwing("a", "1", "200"), throwing("b", "2", "500")];
    expect(left(...records)).toEqual([["1", "300"]]);
    const undone = entry("c", "correct", { command: "b" });
    expect(left(...records, undone)).toEqual([
      ["2", "500"],
      ["1", "300"],
    ]);
  });

  it("is nobody's meal", () => {
    expect(destinationsFor(rows[0] as StockRow, NOW)).not.toContain("staff");
    expect(destinationsFor(rows[2] as StockRow, NOW)).toContain("staff");
  });
});

function lost(monday: string, item: string, minor: number, avoidable: boolean | null): WasteRow {
  const weight = { value: "100", unit: "g" };
  return { monday, item, avoidable, covers: 8, weight, value: { minor } } as WasteRow;
}

describe("what was lost", () => {
  const rows = [
    lost("2027-03-08", "Carrots", 70, false),
    lost("2027-03-01", "Tomatoes", 252, true),
    lost("2027-03-08", "Tomatoes", 136, true),
  ];

  it("is told by week, avoidable and unavoidable apart", () => {
    const [first, second] = weeksOf(rows);
    expect(first?.monday).toBe("2027-03-01");
    expect(second?.classes).toEqual({ avoidable: 136, unavoidable: 70, "not classed": 0 });
    expect(second?.all.grams).toBe("200");
  });

  it("is told by item, the dearest first", () => {
    const sums = grouped(rows, ({ item }) => item).map(({ name, minor }) => [name, minor]);
    expect(sums).toEqual([
      ["Tomatoes", 388],
      ["Carrots", 70],
    ]);
  });

  it("is told for each cover, to the nearest penny", () => {
    expect(perCover(206, 8)).toBe(26);
    expect(perCover(205, 8)).toBe(26);
    expect(perCover(100, 0)).toBeNull();
  });

  it("begins on a Monday (ISO 8601)", () => {
    expect(mondayBefore("2027-03-10", 1)).toBe("2027-03-08");
    expect(mondayBefore("2027-03-14", 2)).toBe("2027-03-01");
  });
});
