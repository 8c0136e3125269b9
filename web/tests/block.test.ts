import { describe, expect, it } from "vitest";
import type { HouseRow, MenuDish, MenuRow, PresenceRow, ServedRow } from "../src/door/rows";
import { type Begins, beginsOf, besideNumber, whence } from "../src/screens/chef/begins";
import {
  block,
  coursesBefore,
  daysFrom,
  dishesIn,
  firstOpen,
  isFree,
  keyOf,
  usualMeals,
  weekBefore,
} from "../src/screens/chef/block";
import { saidOf } from "../src/screens/chef/dishes_for";
import { partSaid } from "../src/screens/chef/presence/part_said";

const dish = (name: string, more: Partial<MenuDish> = {}): MenuDish => ({
  ...{ dish: name.toLowerCase(), name, variant: null, portions: null, chosen: false },
  ...{ approved: true, choose_by: null, short: [], flags: [], conflicts: [] },
  ...more,
});

const menu = (date: string, meal: string, table: string, more: Partial<MenuRow> = {}): MenuRow =>
  ({
    ...{ service: `${date}/${meal}/${table}`, date, meal, table, at: `${date}T19:30:00Z` },
    ...{ covers: 4, state: "proposed", version: 1, courses: [] },
    ...more,
  }) as unknown as MenuRow;

const HOUSE = {
  tables: [{ table: "family", id: "family", usual_covers: 4 }],
} as unknown as HouseRow;
const SOUP = [{ course: "starter", dishes: [dish("Soup")] }];

describe("a block of days", () => {
  it("counts civil days on over the end of a month and a change of clocks", () => {
    expect(daysFrom("2027-03-27", 4)).toEqual([
      "2027-03-27",
      "2027-03-28",
      "2027-03-29",
      "2027-03-30",
    ]);
    expect(daysFrom("2028-02-28", 3)).toEqual(["2028-02-28", "2028-02-29", "2028-03-01"]);
    expect(weekBefore("2027-03-03")).toBe("2027-02-24");
  });

  it("has every meal that a table usually has, with its hour and courses, by the hour", () => {
    const menus = [
      menu("2027-03-10", "dinner", "family", { courses: SOUP }),
      menu("2027-03-10", "lunch", "staff", { at: "2027-03-10T12:15:00Z", courses: SOUP }),
      menu("2027-03-11", "dinner", "family", { courses: SOUP }),
    ];
    expect(usualMeals(menus, "Europe/London")).toEqual([
      { meal: "lunch", table: "staff", time: "12:15", courses: ["starter"] },
      { meal: "dinner", table: "family", time: "19:30", courses: ["starter"] },
    ]);
  });

  it("keeps what was begun, and begins the rest with the covers that were said", () => {
    const meals = [{ meal: "dinner", table: "family", time: "19:30", courses: ["main"] }];
    const begun = {
      ...{ date: "2027-03-11", meal: "dinner", table: "family", time: "20:00", covers: "6" },
      courses: [{ course: "main", dishes: [dish("Pie")] }],
    };
    const days = ["2027-03-10", "2027-03-11"];
    const said = ({ date }: { date: string }) => (date === "2027-03-10" ? "4" : "8");
    const [first, second] = block(days, meals, said, { [keyOf(begun)]: begun });
    expect(first).toMatchObject({ covers: "4", time: "19:30", follows: true });
    expect(dishesIn(first as never)).toBe(0);
    expect(second).toBe(begun);
    const [, following] = block(days, meals, said, { [keyOf(begun)]: { ...begun, follows: true } });
    expect(following).toEqual({ ...begun, covers: "8", follows: true });
  });

  it("begins with the number that was said of the meal, else with the usual one of its table", () => {
    const said = { covers: 6, said_by: "Ada Brand", said_at: "2027-03-09T21:15:00Z" };
    const row = {
      ...{ date: "2027-03-12", meal: "sunday-walk", table: "family", covers: 6, said, menu: null },
      made_of: [
        { what: "usual", heads: 4, id: null, who: null, said_by: null, said_at: null },
        { what: "stay", heads: 2, id: "s", who: "Ann and Tom", said_by: "Ada", said_at: null },
      ],
    } as unknown as PresenceRow;
    const at = (date: string, table = "family") =>
      beginsOf([row], HOUSE, { date, meal: "Sunday walk", table });
    const now = Date.parse("2027-03-10T07:00:00Z");
    const words = (begins: Begins) => whence(begins, "Europe/London", now);
    expect(at("2027-03-12").covers).toBe("6");
    expect(words(at("2027-03-12"))).toBe("6: said by Ada Brand yesterday 21:15");
    expect(at("2027-03-12").madeOf.map(partSaid).join("; ")).toBe(
      "4 as usual; 2 more: Ann and Tom here",
    );
    expect(words(at("2027-03-13"))).toBe("4 as usual");
    const beside = (covers: string) => besideNumber(covers, at("2027-03-12"), "Europe/London", now);
    expect(beside("6")).toBe("said by Ada Brand yesterday 21:15");
    expect(beside("5")).toBe("6: said by Ada Brand yesterday 21:15");
    expect(words(at("2027-03-12", "attic"))).toBe("Nobody has said how many eat.");
  });

  it("proposes over nothing that stands, but again where one was taken off", () => {
    const menus = [
      menu("2027-03-10", "dinner", "family"),
      menu("2027-03-11", "dinner", "family", { state: "taken_off" }),
    ];
    const on = (date: string) => isFree(menus, { date, meal: "dinner", table: "family" });
    expect(["2027-03-10", "2027-03-11", "2027-03-12"].map(on)).toEqual([false, true, true]);
  });

  it("begins on the first day on which more is free than stands", () => {
    const usual = ["lunch", "tea", "dinner"].map((meal) => ({
      ...{ meal, table: "family", time: "12:00", courses: [] },
    }));
    const menus = [
      menu("2027-03-10", "lunch", "family"),
      menu("2027-03-10", "dinner", "family"),
      menu("2027-03-11", "lunch", "family"),
    ];
    const days = daysFrom("2027-03-10", 3);
    expect(firstOpen(days, usual, menus)).toBe("2027-03-11");
    expect(firstOpen(days, [], menus)).toBe("2027-03-10");
  });

  it("takes over what was served a week before, else what was chosen, each dish once", () => {
    const draft = {
      ...{ date: "2027-03-17", meal: "dinner", table: "family", time: "19:30", covers: "4" },
      courses: [],
    };
    const chosen = menu("2027-03-10", "dinner", "family", {
      state: "confirmed",
      courses: [{ course: "main", dishes: [dish("Pie", { chosen: true }), dish("Stew")] }],
    });
    const named = (courses: { dishes: { name: string }[] }[]) =>
      courses.flatMap(({ dishes }) => dishes.map(({ name }) => name));
    expect(named(coursesBefore(draft, [chosen], []))).toEqual(["Pie"]);
    const ate = { date: "2027-03-10", meal: "dinner", table: "family", course: "main" };
    const served = [
      { ...ate, dish: "fish", name: "Fish", variant: null },
      { ...ate, dish: "fish", name: "Fish", variant: "fried" },
    ] as unknown as ServedRow[];
    expect(named(coursesBefore(draft, [chosen], served))).toEqual(["Fish"]);
    expect(coursesBefore({ ...draft, date: "2027-03-18" }, [chosen], served)).toEqual([]);
  });
});

describe("what a dish would come to", () => {
  it("is said of the version that is drafted", () => {
    const rows = [
      { dish: "pie", variant: null, covering: "to_buy" },
      { dish: "pie", variant: "without gluten", covering: "covered" },
    ] as never[];
    expect(saidOf(rows, { dish: "pie", variant: "without gluten" })?.covering).toBe("covered");
    expect(saidOf(rows, { dish: "tart", variant: null })).toBeNull();
    expect(saidOf(null, { dish: "pie", variant: null })).toBeNull();
  });
});
