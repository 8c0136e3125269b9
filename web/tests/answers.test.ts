import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { MenuAnswer, MenuDish, MenuRow } from "../src/door/rows";
import { beginning } from "../src/screens/chef/choice";
import { newLink } from "../src/screens/chef/sheets/link";
import { answerLines } from "../src/words/answers";

const NOW = Date.parse("2027-03-10T07:00:00Z");

function dish(name: string, more: Partial<MenuDish> = {}): MenuDish {
  return {
    ...{ dish: name.toLowerCase(), name, variant: null, portions: null, chosen: false },
    ...{ approved: true, choose_by: "2027-03-12T12:00:00Z", short: [], flags: [], conflicts: [] },
    ...more,
  };
}

function menu(more: Partial<MenuRow> = {}): MenuRow {
  return {
    ...{ service: "2027-03-15/lunch/staff", date: "2027-03-15", meal: "lunch", table: "staff" },
    ...{ at: "2027-03-15T12:15:00Z", covers: 7, state: "proposed", version: 1, short: 0 },
    ...{ choose_by: null, notice_by: "2027-03-12T12:15:00Z" },
    ...{ answer_by: "2027-03-12T12:00:00Z", answer: null, shown: null, said: null },
    courses: [{ course: "main", dishes: [dish("Pie"), dish("Stew")] }],
    ...more,
  };
}

const SHOWN = {
  ...{ sheet: "s", sent_at: "2027-03-09T07:00:00Z", read_at: null },
  until: "2027-03-15T12:15:00Z",
};

const NAMED = (name: string) => ({ dish: name.toLowerCase(), name, variant: null });

function answer(course: Partial<MenuAnswer["courses"][number]>, covers: number | null = null) {
  const said = { course: "main", dish: null, any: false, instead: null, not_these: [], ...course };
  return {
    ...{ id: "a", at: "2027-03-10T06:00:00Z", by: "Ottilie", earlier: false, wish: "" },
    ...{ covers, courses: [said] },
  };
}

function picked(row: MenuRow): string[] {
  return beginning(row, NOW).picks.map(({ name }) => name);
}

describe("what the household answered is picked before the chef looks", () => {
  it("the dish that they named, for as many as they are", () => {
    const row = menu({ answer: answer({ dish: NAMED("Stew") }, 5) });
    expect(picked(row)).toEqual(["Stew"]);
    expect(beginning(row, NOW).covers).toBe("5");
  });

  it("the first that was not struck, where they leave it open", () => {
    const row = menu({ answer: answer({ any: true, not_these: [NAMED("Pie")] }) });
    expect(picked(row)).toEqual(["Stew"]);
  });

  it("the first of a course of which they said nothing", () => {
    expect(picked(menu({ answer: { ...answer({}), courses: [] } }))).toEqual(["Pie"]);
  });

  it("the dish that they asked for in its place", () => {
    expect(picked(menu({ answer: answer({ instead: NAMED("Broth") }) }))).toEqual(["Broth"]);
  });

  it("nothing where the dish is no longer proposed", () => {
    expect(picked(menu({ answer: answer({ dish: NAMED("Roast") }) }))).toEqual([]);
  });

  it("the first dish once silence is an answer, and not before", () => {
    expect(picked(menu({ shown: SHOWN }))).toEqual([]);
    expect(picked(menu({ shown: SHOWN, answer_by: "2027-03-10T07:00:00Z" }))).toEqual(["Pie"]);
    expect(picked(menu({ answer_by: "2027-03-10T07:00:00Z" }))).toEqual([]);
  });
});

it("says an answer in words", () => {
  const said = answer({ instead: NAMED("Broth"), not_these: [NAMED("Pie")] }, 6);
  expect(answerLines({ ...said, wish: "Early" })).toEqual([
    "Main: Broth in its place, not Pie",
    "They are 6.",
    "“Early”",
  ]);
});

it("makes a link of 256 random bits of which the house keeps the SHA-256 alone", async () => {
  const [one, other] = [await newLink("https://house"), await newLink("https://house")];
  expect(one.address).not.toBe(other.address);
  const secret = one.address.replace("https://house/menu-sheet/", "");
  // RFC 4648, section 5: 32 bytes are 43 letters without padding
  expect(secret).toMatch(/^[A-Za-z0-9_-]{43}$/);
  expect(one.kept).toBe(createHash("sha256").update(secret).digest("hex"));
});
