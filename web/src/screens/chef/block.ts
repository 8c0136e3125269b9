import type { MenuRow, ServedRow } from "../../door/rows";
import { clock, dayOf } from "../../words/time";
import { type Draft, type DraftCourse, empty, like, type MealOf, standsAt } from "./draft";

const DAY = 86_400_000;
const WEEK = 7;

/** A meal that a table usually has: its hour, and which courses. */
export interface Usual {
  meal: string;
  table: string;
  time: string;
  courses: string[];
}

/** Every meal of every table that stands on a menu, by its hour. */
export function usualMeals(menus: MenuRow[], zone: string): Usual[] {
  const named = new Map(menus.map((row) => [`${row.meal} ${row.table}`, row]));
  return [...named.values()]
    .map(({ meal, table }) => {
      const last = like(menus, meal, table);
      const time = last ? clock(last.at, zone) : "";
      return { meal, table, time, courses: last?.courses.map(({ course }) => course) ?? [] };
    })
    .sort((a, b) => a.time.localeCompare(b.time) || a.table.localeCompare(b.table));
}

/** So many civil days from one on. */
export function daysFrom(first: string, count: number): string[] {
  const noon = Date.parse(`${first}T12:00:00Z`);
  return Array.from({ length: count }, (_, ahead) => dayOf(new Date(noon + ahead * DAY), "UTC"));
}

/** What a draft stands for, as long as it is not proposed. */
export function keyOf({ date, meal, table }: MealOf): string {
  return `${date}/${meal}/${table}`;
}

/** Whether a menu may be proposed there: none stands, or one that was taken off. */
export function isFree(menus: MenuRow[], draft: MealOf): boolean {
  const stands = standsAt(menus, draft);
  return !stands || stands.state === "taken_off";
}

/** The first day on which more of the usual meals are free than have a menu; else the first of all. */
export function firstOpen(days: string[], usual: Usual[], menus: MenuRow[]): string {
  const free = (date: string) =>
    usual.filter(({ meal, table }) => isFree(menus, { date, meal, table })).length;
  return days.find((date) => 2 * free(date) > usual.length) ?? days[0] ?? "";
}

/** A draft for each meal of each day, those that were begun as they were left but for covers that nobody wrote. */
export function block(
  days: string[],
  meals: Usual[],
  begins: (meal: MealOf) => string,
  begun: Record<string, Draft>,
): Draft[] {
  return days.flatMap((date) =>
    meals.map(({ meal, table, time, courses }) => {
      const covers = begins({ date, meal, table });
      const own = begun[keyOf({ date, meal, table })];
      if (own) return own.follows ? { ...own, covers } : own;
      return { date, meal, table, time, covers, courses: empty(courses), follows: true };
    }),
  );
}

/** How many dishes stand in a draft. */
export function dishesIn({ courses }: Draft): number {
  return courses.reduce((sum, { dishes }) => sum + dishes.length, 0);
}

/** The day a week before a civil day. */
export function weekBefore(date: string): string {
  return dayOf(new Date(Date.parse(`${date}T12:00:00Z`) - WEEK * DAY), "UTC");
}

/** The courses of the same meal a week before: what was served, else what is chosen or proposed there. */
export function coursesBefore(draft: Draft, menus: MenuRow[], served: ServedRow[]): DraftCourse[] {
  const before = { ...draft, date: weekBefore(draft.date) };
  const eaten = served.filter(
    (row) => row.date === before.date && row.meal === draft.meal && row.table === draft.table,
  );
  if (eaten.length > 0) {
    return inCourses(
      eaten.map(({ course, dish, name, variant }) => [course, { dish, name, variant }]),
    );
  }
  const stands = standsAt(menus, before);
  if (!stands || stands.state === "taken_off") return [];
  const chosen =
    stands.state === "proposed" ? () => true : (dish: { chosen: boolean }) => dish.chosen;
  return inCourses(
    stands.courses.flatMap(({ course, dishes }) =>
      dishes
        .filter(chosen)
        .map(({ dish, name, variant }): Named => [course, { dish, name, variant }]),
    ),
  );
}

type Named = [course: string, dish: { dish: string; name: string; variant: string | null }];

function inCourses(named: Named[]): DraftCourse[] {
  const found = new Map<string, DraftCourse>();
  for (const [course, dish] of named) {
    const of = found.get(course) ?? { course, dishes: [] };
    if (!of.dishes.some((each) => each.dish === dish.dish)) {
      of.dishes.push({ ...dish, portions: null });
    }
    found.set(course, of);
  }
  return [...found.values()];
}
