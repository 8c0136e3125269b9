import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { HouseRow, ItemRow, StockRow } from "../src/door/rows";
import { misplaced, wrongPlace } from "../src/door/wrong_place";

/** The house runs the same cases in `tests/vectors/test_wrong_place.py`. */
type Case = Parameters<typeof wrongPlace>[0] & { name: string; wrong: string | null };

const file = new URL("../../tests/vectors/wrong_place.json", import.meta.url);
const cases = JSON.parse(readFileSync(file, "utf-8")) as Case[];

for (const each of cases) {
  test(each.name, () => {
    expect(wrongPlace(each)).toBe(each.wrong);
  });
}

const AREAS = [
  { id: "pantry", area: "Pantry", kind: "ambient" },
  { id: "cold-room", area: "Cold room", kind: "chilled" },
  { id: "drawer", area: "Fish drawer", kind: "chilled" },
] as HouseRow["areas"];

function standing(area: string, more: Partial<StockRow> = {}): StockRow {
  const areas = { [area]: { value: "5", unit: "g" } };
  return { item_id: "fish", state: "sealed", was_thawed: false, areas, ...more } as StockRow;
}

const ITEMS = [{ id: "fish", area: "Fish drawer", high_risk: true }] as ItemRow[];

test("what stands warm is moved to its item's own place", () => {
  const [found] = misplaced([standing("Pantry")], AREAS, ITEMS);
  expect(found).toMatchObject({ wrong: "warm", into: { id: "drawer" } });
  expect(misplaced([standing("Fish drawer")], AREAS, ITEMS)).toEqual([]);
});

test("where the house has no freezer, frozen food has no place to go", () => {
  const [found] = misplaced([standing("Cold room", { state: "frozen" })], AREAS, ITEMS);
  expect(found).toMatchObject({ wrong: "thaws", into: null });
});
