import { expect, test } from "vitest";
import type { FailedPlaceRow } from "../src/door/rows";
import { byPlace, heldInWords, isClear } from "../src/words/failed";

const MILK: FailedPlaceRow = {
  batch: "m",
  label: "B-0001",
  item: "Whole milk",
  area_id: "cold-room",
  area: "Cold room",
  on_hold: { value: "2000", unit: "ml" },
  held_for: [],
  since: "2027-03-08T08:00:00Z",
  highest_c: "7",
  verdict: "accept",
  clear: true,
  reason: "",
  source: "",
  usable_until: null,
  caution: "",
};
const BUTTER: FailedPlaceRow = { ...MILK, batch: "b", item: "Butter" };
const PEAS: FailedPlaceRow = { ...MILK, batch: "p", area_id: "freezer", area: "Freezer" };

test("batches stand by the place that failed, in the order in which they were told", () => {
  const places = byPlace([MILK, PEAS, BUTTER]);
  expect(places.map(({ area, rows }) => [area, rows.map(({ batch }) => batch)])).toEqual([
    ["Cold room", ["m", "b"]],
    ["Freezer", ["p"]],
  ]);
});

test("how many wait is said with what the policy says of them", () => {
  const held = { area_id: "", area: "", rows: [MILK, { ...BUTTER, verdict: "ask" as const }] };
  expect(heldInWords(held)).toBe("2 batches on hold: 1 may be kept, 1 you decide.");
  const doubted = { ...held, rows: [MILK, { ...BUTTER, clear: false }] };
  expect(heldInWords(doubted)).toBe("2 batches on hold: 1 may be kept, 1 look at it first.");
  expect(heldInWords({ ...held, rows: [MILK] })).toBe("1 batch on hold: 1 may be kept.");
});

test("SL5: what is left is kept together only where nothing speaks against any of it", () => {
  const held = (rows: FailedPlaceRow[]) => ({ area_id: "", area: "", rows });
  expect(isClear(held([MILK, BUTTER]))).toBe(true);
  expect(isClear(held([MILK, { ...BUTTER, clear: false }]))).toBe(false);
  expect(isClear(held([MILK]))).toBe(false);
});
