import { describe, expect, it } from "vitest";
import type { HouseRow, ItemRow } from "../src/door/rows";
import { inSafeOrder, toPutAway } from "../src/screens/porter/put_away";
import type { Recorded } from "../src/screens/porter/recorded";

const AREAS = [
  { area: "Cold room", kind: "chilled" },
  { area: "Chest freezer", kind: "frozen" },
  { area: "Larder", kind: "ambient" },
] as HouseRow["areas"];

const ITEMS = [
  { item: "Chicken", food: "poultry", high_risk: false },
  { item: "Cream", food: "milk", high_risk: true },
  { item: "Butter", food: null, high_risk: false },
  { item: "Leeks", food: null, high_risk: false, group: "vegetables" },
] as ItemRow[];

function line(item: string, area: string, change: Partial<Recorded> = {}): Recorded {
  const of = { order: null, pack_id: null, words: "1", more: [area], kept: null };
  return { command: item, batch: item, item, verdict: "accept", ...of, ...change };
}

const CAME = [
  line("Flour", "Larder"),
  line("Leeks", "Larder"),
  line("Butter", "Cold room"),
  line("Peas", "Chest freezer"),
  line("Cream", "Cold room"),
  line("Chicken", "Cold room"),
];

const order = (hot: boolean) =>
  inSafeOrder(toPutAway(CAME, ITEMS, AREAS), hot).map(({ one }) => one.item);

describe("what stands at the door, common practice, no source", () => {
  it("is carried away chilled and risky first, then frozen, chilled, produce, dry", () => {
    expect(order(false)).toEqual(["Cream", "Chicken", "Peas", "Butter", "Leeks", "Flour"]);
  });
  it("begins with what is frozen on a hot day", () => {
    expect(order(true)).toEqual(["Peas", "Cream", "Chicken", "Butter", "Leeks", "Flour"]);
  });
  it("says what is raw, and leaves out what was refused or not booked", () => {
    const gone = [
      line("Cream", "Cold room", { verdict: "refuse" }),
      line("Butter", "Cold room", { kept: "It is unknown." }),
    ];
    const [chicken, ...others] = toPutAway([line("Chicken", "Cold room"), ...gone], ITEMS, AREAS);
    expect(chicken?.raw).toBe(true);
    expect(others).toEqual([]);
  });
});
