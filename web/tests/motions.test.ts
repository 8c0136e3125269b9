import { expect, test } from "vitest";
import type { StandingRow } from "../src/door/outbox/batch_parts";
import type { ItemRow, PickRow } from "../src/door/rows";
import { type Area, offered, placeFor, purposes } from "../src/screens/porter/motions/offered";

const g = (value: string) => ({ value, unit: "g" as const });

function batch(more: Partial<StandingRow>): StandingRow {
  return {
    batch: "b",
    label: "B-1",
    state: "sealed",
    was_thawed: false,
    usable: true,
    on_hand: g("500"),
    available: g("500"),
    promised: g("0"),
    on_hold: g("0"),
    ...more,
  } as StandingRow;
}

test("SL2: past its last day it is moved or thrown away, and nothing else", () => {
  const { motions, against } = offered(batch({ usable: false }));
  expect(motions).toEqual(["move"]);
  expect(against.join()).toContain("nobody uses it");
});

test("what is on hold waits for the chef", () => {
  const held = batch({ available: g("0"), on_hold: g("500") });
  expect(offered(held).motions).toEqual(["move"]);
  expect(offered(batch({ on_hold: g("100"), available: g("400") })).motions).toContain("use");
});

test("SL3: frozen food is thawed and not frozen; what was thawed is not frozen again", () => {
  expect(offered(batch({ state: "frozen" })).motions).toContain("thaw");
  expect(offered(batch({ state: "frozen" })).motions).not.toContain("freeze");
  const thawed = offered(batch({ state: "thawed", was_thawed: true }));
  expect(thawed.motions).not.toContain("freeze");
  expect(thawed.against).toHaveLength(1);
  expect(offered(batch({})).motions).toContain("freeze");
});

test("SL3: what was thawed is not frozen again, opened or packed since", () => {
  for (const state of ["opened", "vacuum_packed", "made"] as const) {
    const { motions, against } = offered(batch({ state, was_thawed: true }));
    expect(motions).not.toContain("freeze");
    expect(against).toHaveLength(1);
  }
});

test("what is open already is not opened again", () => {
  expect(offered(batch({ state: "opened" })).motions).not.toContain("open");
});

test("what is frozen goes where the item belongs, if that is a freezer, else into the first", () => {
  const areas = [
    { id: "cold-room", area: "Cold room", kind: "chilled" },
    { id: "kitchen-freezer", area: "Kitchen freezer", kind: "frozen" },
    { id: "outhouse-freezer", area: "Outhouse freezer", kind: "frozen" },
  ] as Area[];
  const of = (area_id: string) => ({ area_id }) as ItemRow;
  expect(placeFor("freeze", of("outhouse-freezer"), areas)?.area).toBe("Outhouse freezer");
  expect(placeFor("freeze", of("cold-room"), areas)?.area).toBe("Kitchen freezer");
  expect(placeFor("thaw", of("outhouse-freezer"), areas)?.area).toBe("Cold room");
  expect(placeFor("thaw", of("pantry"), [])).toBeNull();
});

test("taken out for the meal that it was picked for first, of which it says how much", () => {
  const pick = (service: string, of: string, done: PickRow["done"] = null) =>
    ({
      service,
      preparation: null,
      batch: of,
      quantity: g("199.5"),
      take: g("200"),
      at: service,
      done,
    }) as PickRow;
  const lunch = "2027-03-10/lunch/staff";
  const dinner = "2027-03-10/dinner/family";
  const found = purposes([pick(lunch, "other"), pick(dinner, "b")], "b");
  expect(found.map(({ service, quantity }) => [service, quantity?.value])).toEqual([
    [dinner, "200"],
    [lunch, undefined],
  ]);
});
