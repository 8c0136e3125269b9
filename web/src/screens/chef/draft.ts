import type { BodyOf } from "../../door/command";
import type { DishRow, HouseRow, MenuRow } from "../../door/rows";
import { plain } from "../../words/find";

export interface DraftDish {
  dish: string;
  name: string;
  variant: string | null;
  portions: number | null;
}

export interface DraftCourse {
  course: string;
  dishes: DraftDish[];
}

/** A menu before it is proposed. */
export interface Draft {
  date: string;
  meal: string;
  table: string;
  time: string;
  covers: string;
  courses: DraftCourse[];
  /** Its covers are what was said, and follow what is said meanwhile. */
  follows?: boolean;
}

/** One meal of one table, whether or not anything stands there. */
export type MealOf = Pick<Draft, "date" | "meal" | "table">;

const COURSES = ["starter", "main", "pudding"];
export const MEALS = ["breakfast", "lunch", "supper", "dinner"];

/** What the latest menu of the same meal and table says of hour and courses. */
export function like(menus: MenuRow[], meal: string, table: string): MenuRow | undefined {
  const same = menus.filter((row) => row.meal === meal && row.courses.length > 0);
  return same.filter((row) => row.table === table).at(-1) ?? same.at(-1);
}

export function courseNames(menus: MenuRow[]): string[] {
  const found = menus.flatMap((row) => row.courses.map(({ course }) => course));
  return [...new Set([...found, ...COURSES])];
}

/** The menu of the same date, meal and table, if there is one. */
export function standsAt(menus: MenuRow[], draft: MealOf): MenuRow | undefined {
  return menus.find((row) => isAt(row, draft));
}

/** Whether something the house tells is about the meal of a draft, whatever the case of its name. */
export function isAt(row: MealOf, draft: MealOf): boolean {
  const meal = plain(draft.meal).replace(/[^a-z0-9]+/g, "-");
  return row.date === draft.date && row.meal === meal && row.table === draft.table;
}

export function empty(courses: string[]): DraftCourse[] {
  return courses.map((course) => ({ course, dishes: [] }));
}

/** The courses of a menu as they are proposed, to be proposed otherwise. */
export function again(row: MenuRow): DraftCourse[] {
  return row.courses.map(({ course, dishes }) => ({
    course,
    dishes: dishes.map(({ dish, name, variant, portions }) => ({ dish, name, variant, portions })),
  }));
}

/** The body of the proposal as the house is told it; courses without a dish are left out. */
export function proposal(draft: Draft, house: HouseRow): BodyOf<"propose"> {
  const table = house.tables.find((each) => each.table === draft.table)?.id ?? draft.table;
  return {
    service: {
      ...{ date: draft.date, meal: draft.meal, table, time: draft.time.trim() },
      covers: Number(draft.covers),
    },
    courses: draft.courses
      .filter(({ dishes }) => dishes.length > 0)
      .map(({ course, dishes }) => ({
        course,
        dishes: dishes.map(({ dish, variant, portions }) => ({
          dish,
          ...(variant === null ? {} : { variant }),
          ...(portions === null ? {} : { portions }),
        })),
      })),
  };
}

const MOST = 8;
const LETTERS = 3;

/** The dishes that three letters find: those with a word that begins so first, without accents. */
export function found(dishes: DishRow[], letters: string): DishRow[] {
  const sought = plain(letters);
  if (sought.length < LETTERS) return [];
  const within = dishes.filter(({ dish, put_away }) => !put_away && plain(dish).includes(sought));
  const begins = within.filter(({ dish }) => ` ${plain(dish)}`.includes(` ${sought}`));
  return [...begins, ...within.filter((row) => !begins.includes(row))].slice(0, MOST);
}
