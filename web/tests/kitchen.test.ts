import { describe, expect, it } from "vitest";
import type { Command } from "../src/door/command";
import { preparationsShown, servingShown } from "../src/door/outbox/lists";
import type { PreparationRow, ServingRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import { AS_PLANNED, bodyOf, countOf, isReadable } from "../src/screens/chef/kitchen/exceptions";
import {
  firstDay,
  lastDay,
  monthAfter,
  monthName,
  monthOf,
} from "../src/screens/chef/kitchen/months";

const DINNER = "2027-03-10/dinner/family";
const AT = "2027-03-10T20:10:00Z";

function saved(...commands: Pick<Command, "id" | "kind" | "body">[]): Entry[] {
  return commands.map(
    (command) => ({ id: command.id, command: { ...command, at: AT, person: "Cato" } }) as Entry,
  );
}

const back = (command: string) => ({
  id: `back ${command}`,
  kind: "correct" as const,
  body: { command, reason: "by mistake" },
});

const ROW = {
  service: DINNER,
  state: "confirmed",
  covers: 4,
  dishes: [
    { course: "main", dish: "pie", name: "Pie", variant: null, portions: 4, served: null },
    { course: "side", dish: "kale", name: "Kale", variant: "plain", portions: 4, served: null },
  ],
  batches: [
    { batch: "m", item_id: "milk", label: "MMMM1", quantity: { value: "1000", unit: "ml" } },
    { batch: "b", item_id: "butter", label: "BBBB2", quantity: { value: "40", unit: "g" } },
  ],
  left_overs: [],
  done: null,
} as unknown as ServingRow;

describe("LG2 what was otherwise at a meal", () => {
  it("says nothing where it was as planned", () => {
    expect(countOf(ROW, AS_PLANNED)).toBe(0);
    expect(bodyOf(ROW, AS_PLANNED)).toEqual({ service: DINNER });
  });
  it("says the portions that were served of a dish in its variant, none at all included", () => {
    const portions = { "pie|": "2", "kale|plain": "0" };
    expect(bodyOf(ROW, { ...AS_PLANNED, portions })).toEqual({
      service: DINNER,
      dishes: [
        { dish: "pie", portions: 2 },
        { dish: "kale", portions: 0, variant: "plain" },
      ],
    });
  });
  it("says another amount of a batch, or another batch in its place", () => {
    const batches = {
      m: { typed: "1,2 l", instead: null },
      b: { typed: "", instead: "b2" },
    };
    const otherwise = { ...AS_PLANNED, batches };
    expect(countOf(ROW, otherwise)).toBe(2);
    expect(bodyOf(ROW, otherwise).exceptions).toEqual([
      { batch: "m", quantity: { value: "1200", unit: "ml" } },
      { batch: "b", quantity: { value: "0", unit: "g" } },
      { batch: "b2", quantity: { value: "40", unit: "g" } },
    ]);
  });
  it("says something that was not planned", () => {
    const more = [{ item: "walnuts", name: "Walnuts", unit: "g", typed: "30" }];
    expect(bodyOf(ROW, { ...AS_PLANNED, more }).exceptions).toEqual([
      { item: "walnuts", quantity: { value: "30", unit: "g" } },
    ]);
  });
  it("is not ready while something typed cannot be read", () => {
    expect(isReadable(ROW, { ...AS_PLANNED, portions: { "pie|": "" } })).toBe(false);
    const batches = { m: { typed: "much", instead: null } };
    expect(isReadable(ROW, { ...AS_PLANNED, batches })).toBe(false);
    const more = [{ item: "walnuts", name: "Walnuts", unit: "g", typed: "" }];
    expect(isReadable(ROW, { ...AS_PLANNED, more })).toBe(false);
  });
});

describe("SY4 serving and making with what this phone recorded", () => {
  const serve = {
    id: "s",
    kind: "serve" as const,
    body: { service: DINNER, dishes: [{ dish: "pie", portions: 3 }] },
  };
  it("shows a meal as served that was recorded here, with its portions", () => {
    const [row] = servingShown([ROW], saved(serve));
    expect(row).toMatchObject({ state: "served", done: { command: "s", person: "Cato" } });
    expect(row?.dishes.map(({ served }) => served)).toEqual([3, null]);
  });
  it("shows it as not served once that is taken back, whoever had it before", () => {
    expect(servingShown([ROW], saved(serve, back("s")))).toEqual([ROW]);
    const told = { ...ROW, state: "served" as const, done: { command: "s", at: AT, person: "x" } };
    expect(servingShown([told], saved(back("s")))).toEqual([ROW]);
  });
  it("ticks what was made here on the preparation list", () => {
    const stock = { recipe: "stock", making: "make|stock", done: null } as PreparationRow;
    const sauce = { recipe: "sauce", making: "make|sauce", done: null } as PreparationRow;
    const body = { recipe: "stock", quantity: "1 l", child: "c", area: "Cold room" };
    const make = { id: "k", kind: "make" as const, body };
    const [first, second] = preparationsShown([stock, sauce], saved(make));
    expect(first).toMatchObject({ done: { command: "k", batch: "c" }, start: AT });
    expect(second).toEqual(sauce);
    expect(preparationsShown([stock], saved(make, back("k")))).toEqual([stock]);
  });
});

describe("months of what was served", () => {
  it("go back and forth over the turn of a year", () => {
    expect(monthOf("2027-01-31")).toBe("2027-01");
    expect(monthAfter("2027-01", -1)).toBe("2026-12");
    expect(monthAfter("2026-12", 1)).toBe("2027-01");
    expect(monthAfter("2027-03", -12)).toBe("2026-03");
    expect(monthName("2027-06")).toBe("June 2027");
  });
  it("have their first and last day, a leap year's February too", () => {
    expect([firstDay("2028-02"), lastDay("2028-02")]).toEqual(["2028-02-01", "2028-02-29"]);
    expect(lastDay("2027-12")).toBe("2027-12-31");
  });
});
