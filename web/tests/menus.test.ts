import { describe, expect, it } from "vitest";
import type { CoverageRow, DishRow, MenuDish, MenuRow } from "../src/door/rows";
import {
  beginning,
  chosenDishes,
  turned,
  unpicked,
  unsettled,
  withOwnDish,
} from "../src/screens/chef/choice";
import { couldUse } from "../src/screens/chef/could_use";
import { found } from "../src/screens/chef/draft";
import { neededTwice, outcomeOf } from "../src/screens/chef/outcomes";
import { isInSeason, seasonSaid } from "../src/screens/chef/season";
import { few } from "../src/words/amounts";
import { standing, standsAs, toChoose } from "../src/words/menus";

const NOW = Date.parse("2027-03-10T07:00:00Z");

function dish(name: string, more: Partial<MenuDish> = {}): MenuDish {
  return {
    ...{ dish: name.toLowerCase(), name, variant: null, portions: null, chosen: false },
    ...{ approved: true, choose_by: "2027-03-13T10:00:00Z", short: [], flags: [], conflicts: [] },
    ...more,
  };
}

const LOAF = dish("Soup", {
  conflicts: [
    {
      ...{ person: "Tam", cannot_eat: "gluten", certainty: "contains", through: ["Loaf"] },
      safe: { dish: "soup", name: "Soup", variant: "without gluten", on_menu: false },
      ...{ agreed: null, asked: false },
    },
  ],
});

function menu(courses: MenuRow["courses"], more: Partial<MenuRow> = {}): MenuRow {
  return {
    ...{ service: "2027-03-15/lunch/staff", date: "2027-03-15", meal: "lunch", table: "staff" },
    ...{ at: "2027-03-15T12:15:00Z", covers: 7, state: "proposed", version: 1, short: 0 },
    ...{ choose_by: null, notice_by: "2027-03-12T12:15:00Z", courses },
    ...{ answer_by: null, answer: null, shown: null, said: null },
    ...more,
  };
}

describe("what is picked", () => {
  it("is the only dish of a course from the start, where it can be had", () => {
    const row = menu([
      { course: "soup", dishes: [dish("Broth")] },
      { course: "main", dishes: [dish("Pie"), dish("Stew")] },
      { course: "pudding", dishes: [dish("Fool", { choose_by: null })] },
      { course: "bread", dishes: [dish("Flatbread", { approved: false })] },
    ]);
    const { picks } = beginning(row, NOW);
    expect(picks.map(({ name }) => name)).toEqual(["Broth"]);
    expect(unpicked(row, picks)).toEqual(["main", "pudding", "bread"]);
  });

  it("AL3 gives a person their own dish, and one portion fewer of what they cannot eat", () => {
    const row = menu([{ course: "main", dishes: [LOAF] }]);
    const picks = turned([], "main", LOAF);
    const [conflict] = LOAF.conflicts;
    if (!conflict) throw new Error("no conflict");
    expect(unsettled(row, picks)).toHaveLength(1);
    const both = withOwnDish(picks, "main", LOAF, conflict, "7");
    expect(unsettled(row, both)).toEqual([]);
    expect(chosenDishes(both)).toEqual([
      { course: "main", dish: "soup", portions: 6 },
      { course: "main", dish: "soup", variant: "without gluten", portions: 1 },
    ]);
    expect(turned(both, "main", LOAF)).toEqual([]);
  });

  it("AL3 is no conflict where a safe dish of the course is picked, too", () => {
    const pie = dish("Pie");
    const row = menu([{ course: "main", dishes: [LOAF, pie] }]);
    const picks = turned(turned([], "main", LOAF), "main", pie);
    expect(unsettled(row, picks)).toEqual([]);
    expect(unsettled(row, turned(picks, "main", pie))).toHaveLength(1);
  });

  it("leaves out portions that stand for everybody", () => {
    expect(chosenDishes(turned([], "main", dish("Pie")))).toEqual([
      { course: "main", dish: "pie" },
    ]);
  });
});

describe("how a dish stands", () => {
  it.each([
    [dish("Pie"), "proposed", "covered"],
    [dish("Pie", { short: ["Cream"] }), "proposed", "to be bought: Cream"],
    [
      dish("Pie", { choose_by: null, short: ["Mussels"] }),
      "proposed",
      "cannot be had any more: it lacks Mussels",
    ],
    [dish("Pie", { choose_by: "2027-03-09T10:00:00Z" }), "proposed", "too late to prepare it"],
    [dish("Pie", { choose_by: "2027-03-09T10:00:00Z" }), "confirmed", "covered"],
  ] as const)("%#", (one, state, said) => {
    expect(standsAs(one, state, NOW)).toBe(said);
    expect(standing(one, state, NOW)).toBe(
      said.startsWith("covered") ? "covered" : said.startsWith("to be") ? "buy" : "gone",
    );
  });

  it("PL5 what must be chosen before the usual notice is early, what is past is gone", () => {
    const row = menu([
      {
        course: "main",
        dishes: [
          dish("Duck", { choose_by: "2027-03-11T09:40:00Z", short: ["Duck breast"] }),
          dish("Risotto", { choose_by: "2027-03-08T11:30:00Z", short: ["Rice"] }),
          dish("Stew"),
        ],
      },
    ]);
    const { next, early, gone } = toChoose(row, NOW);
    expect(next).toBe("2027-03-11T09:40:00Z");
    expect(early.map(({ name }) => name)).toEqual(["Duck"]);
    expect(gone.map(({ name }) => name)).toEqual(["Risotto"]);
  });
});

function row(item: string, more: Partial<CoverageRow> = {}): CoverageRow {
  const nothing = { value: "0", unit: "g" } as const;
  const need = { value: "5", unit: "g" } as const;
  return {
    ...{ service: "s", state: "proposed", course: "main", dish: "Pie", variant: null, item },
    ...{ for: null, need, taken_out: nothing, wanted_by: "" },
    ...{ from: [], short: nothing, mend_until: null, choose_by: null, flags: [] },
    ...{ ways_out: [], safe: [], derivation: null },
    ...more,
  };
}

describe("what becomes of a menu's items", () => {
  const short = { value: "3", unit: "g" } as const;
  const rows = [
    row("Flour", { from: [{ batch: "1", label: "B-1", quantity: short }] }),
    row("Stock", { from: [{ making: "m", quantity: short }] }),
    row("Cream", { short, mend_until: "2027-03-12T16:50:00Z" }),
    row("Milk", { short, mend_until: "2027-03-11T16:50:00Z" }),
    row("Mussels", { short }),
    row("Late", { short, mend_until: "2027-03-09T16:50:00Z" }),
    row("Other", { dish: "Stew" }),
  ];
  const picks = turned([], "main", dish("Pie"));

  it("is set aside, coming, to be bought by the soonest first, or not to be had", () => {
    const told = outcomeOf(rows, picks, NOW);
    const names = (of: CoverageRow[]) => of.map(({ item }) => item);
    expect(names(told.stock)).toEqual(["Flour"]);
    expect(names(told.coming)).toEqual(["Stock"]);
    expect(names(told.buy)).toEqual(["Milk", "Cream"]);
    expect(names(told.gone)).toEqual(["Mussels", "Late"]);
    expect(neededTwice(told)).toEqual([]);
  });

  it("says which items two of the dishes need", () => {
    const both = turned(picks, "main", dish("Stew"));
    const told = outcomeOf([...rows, row("Flour", { dish: "Stew" })], both, NOW);
    expect(neededTwice(told)).toEqual(["Flour"]);
  });
});

describe("dishes by three letters", () => {
  const dishes = ["Spaghetti with meat ragù", "Fish cakes", "Kedgeree", "Crab cakes"].map(
    (name) => ({ dish: name }) as DishRow,
  );
  it.each([
    ["ke", []],
    ["KED", ["Kedgeree"]],
    ["ragu", ["Spaghetti with meat ragù"]],
    ["cak", ["Fish cakes", "Crab cakes"]],
  ])("%s", (letters, names) => {
    expect(found(dishes, letters).map(({ dish: name }) => name)).toEqual(names);
  });
});

describe("seasons", () => {
  it("both ends are in season, and a season may wrap the year's end", () => {
    const spring = { season_from: "03-15", season_to: "05-15" };
    expect(isInSeason(spring, "2027-03-15")).toBe(true);
    expect(isInSeason(spring, "2027-05-16")).toBe(false);
    const winter = { season_from: "11-01", season_to: "02-28" };
    expect(isInSeason(winter, "2027-01-10")).toBe(true);
    expect(isInSeason(winter, "2027-03-01")).toBe(false);
    expect(isInSeason({ season_from: null, season_to: null }, "2027-03-01")).toBe(true);
    expect(seasonSaid(spring)).toBe("In season 15 March to 15 May.");
  });
});

it("a dish that could use a batch stands once, those on a menu first", () => {
  const uses = couldUse({
    could_use: [
      { dish: "Fool" },
      { dish: "Pie", service: "2027-03-12/dinner/family" },
      { dish: "Pie", service: "2027-03-11/lunch/staff" },
      { dish: "Pie", service: "2027-03-12/dinner/family" },
    ],
  } as Parameters<typeof couldUse>[0]);
  expect(uses).toEqual([
    { dish: "Pie", services: ["2027-03-11/lunch/staff", "2027-03-12/dinner/family"] },
    { dish: "Fool", services: [] },
  ]);
});

it("a few of many are named, and the rest counted", () => {
  expect(few(["a"])).toBe("a");
  expect(few(["a", "b", "c"])).toBe("a, b and c");
  expect(few(["a", "b", "c", "d"])).toBe("a, b and 2 more");
});
