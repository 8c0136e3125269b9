import { expect, test } from "vitest";
import type { RecipeRow } from "../src/door/rows";
import { found } from "../src/screens/chef/recipes/found";
import { saidOf } from "../src/screens/chef/recipes/understood";
import {
  again,
  bodyOf,
  brought,
  type Document,
  empty,
  emptyLine,
  faultsOf,
  isReady,
  type Read,
  share,
  undecided,
} from "../src/screens/chef/recipes/writing";

function line(part: Partial<Read>): Read {
  return {
    ...{ written: "", amount: "", measured: null, in_item: null, item: null, candidates: [] },
    ...{ note: "", sureness: "sure", doubts: [], ...part },
  };
}

const EGGS = line({ written: "3 eggs", amount: "3", item: "Eggs" });
const BUTTER = line({
  ...{ written: "100 g butter", amount: "100 g", candidates: ["Butter, salted"] },
  ...{ sureness: "doubtful", doubts: ["item_not_named"] },
});
const CUSTARD: Document = {
  ...{ name: "Custard", yields: 4, yields_written: "4", lead: "PT1H30M", unit_system: "us" },
  ...{ method: "Bake.", not_believed: [], lines: [EGGS, BUTTER] },
};

test("a line that nobody has decided is never written", () => {
  const draft = brought(CUSTARD);
  expect(undecided(draft).map(({ read }) => read)).toEqual([BUTTER]);
  expect(isReady(draft)).toBe(false);
  expect(() => bodyOf(draft)).toThrow();
});

test("what was decided is written as the person said it, what was sure as it was read", () => {
  const draft = brought(CUSTARD);
  const decided = draft.lines.map((each) =>
    each.decided ? each : { ...each, ingredient: "Butter, salted", decided: true },
  );
  const body = bodyOf({ ...draft, lines: decided });
  expect(body.ingredients).toMatchObject([
    { ingredient: "Eggs", amount: "3" },
    { ingredient: "Butter, salted", amount: "100 g" },
  ]);
  expect([body.yields, body.lead, body.unit_system]).toEqual(["4", "1 h 30 min", "us"]);
});

test("a line that is taken out waits no longer, and an empty one is none", () => {
  const draft = brought(CUSTARD);
  const kept = [...draft.lines.filter(({ decided }) => decided), emptyLine()];
  expect(bodyOf({ ...draft, lines: kept }).ingredients).toHaveLength(1);
});

test("without a name, a number and a line there is nothing to write", () => {
  const eggs = { ...emptyLine(), ingredient: "Eggs", amount: "3" };
  const whole = { ...empty("metric"), recipe: "Custard", yields: "4", lines: [eggs] };
  expect(isReady(whole)).toBe(true);
  for (const part of [{ recipe: " " }, { yields: "" }, { lines: [emptyLine()] }]) {
    expect(isReady({ ...whole, ...part })).toBe(false);
  }
});

const ROW = {
  ...{ id: "leek-soup", recipe: "Leek soup", kind: "dish", version: 3, yields: "8", unit: null },
  ...{ dates: "cooked", life_days: 2, lead: "P1DT2H", full_recipes: false, area: null },
  ...{ season_from: "10-01", season_to: "03-31", unit_system: "metric", method: "Sweat." },
  picture: "018f6b1e-0000-7000-8000-000000000001",
  lines: [
    { item: "Leeks", amount: "1 kg", trimming_yield: "11/25", fixed: false },
    { item: "Frying oil", amount: "1 l", trimming_yield: "1", fixed: true },
  ],
  variants: [
    { variant: "plain", change: "replace", ingredient: "Leeks", instead: "Onions", amount: null },
  ],
} as unknown as RecipeRow;

test("a recipe written anew as it stands is the same recipe", () => {
  expect(bodyOf(again(ROW))).toEqual({
    ...{ recipe: "Leek soup", kind: "dish", yields: "8", dates: "cooked", life_days: 2 },
    ...{ lead: "1 day 2 h", full_recipes: false, season_from: "10-01", season_to: "03-31" },
    ...{ unit_system: "metric", method: "Sweat.", picture: ROW.picture, items: [] },
    ingredients: [
      {
        ...{ ingredient: "Leeks", amount: "1 kg", trimmed: true, trimming_yield: "44 %" },
        scaling: "per_portion",
      },
      { ingredient: "Frying oil", amount: "1 l", trimmed: false, scaling: "fixed" },
    ],
    variants: [{ variant: "plain", change: "replace", ingredient: "Leeks", instead: "Onions" }],
  });
});

test("a share is per cent where that says it exactly, else the fraction", () => {
  expect([share("11/25"), share("1"), share("617/250"), share("2/3")]).toEqual([
    "44 %",
    "100 %",
    "246.8 %",
    "2/3",
  ]);
});

test("an item that no line names any more is not entered with the recipe", () => {
  const kale = { item: "Sea kale", unit: "g" as const, counted: true, contains: "none" };
  const draft = { ...empty("metric"), recipe: "Kale", yields: "4", items: [kale] };
  const named = { ...emptyLine(), ingredient: "Sea kale", amount: "200 g" };
  expect(bodyOf({ ...draft, lines: [named] }).items).toHaveLength(1);
  expect(bodyOf({ ...draft, lines: [{ ...named, ingredient: "Kale" }] }).items).toEqual([]);
});

test("an amount is said as it is understood, or why it is not", () => {
  const cups = { ...emptyLine(), ingredient: "Plain flour", amount: "1 1/2 cups" };
  const measured = { value: "354.882", unit: "ml" as const };
  const none = { measured, in_item: null, problem: null, todo: null };
  expect(saidOf(cups, "us", none).said).toBe("1 1/2 cups US = 355 ml");
  const flour = { ...none, in_item: { value: "188.088", unit: "g" as const } };
  expect(saidOf(cups, "us", flour).said).toBe("1 1/2 cups US = 355 ml = 188 g");
  const wrong = { ...none, measured: null, problem: "No amount.", todo: "Write one." };
  expect(saidOf(cups, "us", wrong)).toEqual({ said: "", wrong: "No amount. Write one." });
});

test("faults stand with the line they are of", () => {
  const fault = {
    file: "ingredients",
    row: 2,
    column: "amount",
    value: "",
    code: "",
    problem: "p",
  };
  const problem = { faults: [{ ...fault, todo: "t" }] } as unknown as Parameters<
    typeof faultsOf
  >[0];
  expect(faultsOf(problem, "ingredients", 2)).toHaveLength(1);
  expect(faultsOf(problem, "ingredients", 1)).toEqual([]);
  expect(faultsOf(null, "ingredients", 2)).toEqual([]);
});

test("the list is of a kind, those that begin with the letters first", () => {
  const rows = ["Fish pie", "Apple pie", "Pickled pears"].map((recipe) => ({ ...ROW, recipe }));
  expect(found(rows, "preparation", "")).toEqual([]);
  expect(found(rows, "dish", "pi").map(({ recipe }) => recipe)).toEqual([
    "Pickled pears",
    "Fish pie",
    "Apple pie",
  ]);
});
