import type { BodyOf } from "../../door/command";
import type { Conflict, MenuDish, MenuRow } from "../../door/rows";
import { standing } from "../../words/menus";

/** One dish that is to be chosen, for everybody or for so many; `person` where it is somebody's own. */
export interface Pick {
  course: string;
  dish: string;
  name: string;
  variant: string | null;
  portions: string;
  person: string | null;
}

/** What is being chosen, on the version of the menu that was on the screen. */
export interface Choice {
  seen: MenuRow;
  picks: Pick[];
  covers: string;
}

type Course = MenuRow["courses"][number];

function pick(course: string, dish: MenuDish): Pick {
  const portions = dish.portions === null ? "" : String(dish.portions);
  const { dish: id, name, variant } = dish;
  return { course, dish: id, name, variant, portions, person: null };
}

/**
 * What the household answered is picked, or the first dish of each course once silence is an answer; before
 * that the only dish of a course is, where it can be had.
 */
export function beginning(row: MenuRow, now: number): Choice {
  const isSilent = row.shown !== null && row.answer_by !== null;
  const isDefault = isSilent && Date.parse(row.answer_by ?? "") <= now;
  const settled = row.answer !== null || isDefault;
  const picks = row.courses.flatMap((course) =>
    settled ? answered(row, course, now) : only(row, course, now),
  );
  return { seen: row, picks, covers: String(row.answer?.covers ?? row.covers) };
}

function only(row: MenuRow, { course, dishes }: Course, now: number): Pick[] {
  const [one, ...more] = dishes;
  const takes = one && more.length === 0 && standing(one, row.state, now) !== "gone";
  return takes && one.approved ? [pick(course, one)] : [];
}

/** What the household wants of a course: what they named, else the first that they did not strike. */
function answered(row: MenuRow, { course, dishes }: Course, now: number): Pick[] {
  const said = row.answer?.courses.find((one) => one.course === course);
  if (said?.instead) {
    const { dish, name, variant } = said.instead;
    return [{ course, dish, name, variant, portions: "", person: null }];
  }
  const named = said?.dish;
  const wanted = dishes.find(
    (dish) => named && dish.dish === named.dish && dish.variant === named.variant,
  );
  const struck = new Set(said?.not_these.map(({ dish }) => dish));
  const first = dishes.find(
    (dish) => dish.approved && !struck.has(dish.dish) && standing(dish, row.state, now) !== "gone",
  );
  const found = wanted ?? (named ? undefined : first);
  return found ? [pick(course, found)] : [];
}

export function isOf(one: Pick, course: string, dish: MenuDish): boolean {
  return one.course === course && one.dish === dish.dish && one.variant === dish.variant;
}

/** Picked if it was not, put back if it was; with it goes what somebody was to have in its place. */
export function turned(picks: Pick[], course: string, dish: MenuDish): Pick[] {
  const rest = picks.filter((one) => !isOf(one, course, dish));
  if (rest.length === picks.length) return [...picks, pick(course, dish)];
  const people = new Set(dish.conflicts.map(({ person }) => person));
  return rest.filter((one) => one.course !== course || !people.has(one.person ?? ""));
}

export function withPortions(picks: Pick[], which: Pick, portions: string): Pick[] {
  return picks.map((one) => (one === which ? { ...one, portions } : one));
}

/** A person gets their own safe dish; the dish they cannot eat is for one fewer. */
export function withOwnDish(
  picks: Pick[],
  course: string,
  dish: MenuDish,
  conflict: Conflict,
  covers: string,
): Pick[] {
  const { safe, person } = conflict;
  if (!safe) return picks;
  const fewer = picks.map((one) =>
    isOf(one, course, dish)
      ? { ...one, portions: String(Math.max(0, Number(one.portions || covers) - 1)) }
      : one,
  );
  const there = fewer.find(
    (one) => one.course === course && one.dish === safe.dish && one.variant === safe.variant,
  );
  if (there) {
    return withPortions(fewer, there, there.portions && String(Number(there.portions) + 1));
  }
  const { dish: id, name, variant } = safe;
  return [...fewer, { course, dish: id, name, variant, portions: "1", person }];
}

/** Who would still get what they cannot eat, of the dishes that are picked. */
export function unsettled(row: MenuRow, picks: Pick[]): { dish: MenuDish; conflict: Conflict }[] {
  return row.courses.flatMap(({ course, dishes }) => {
    const of = picks.filter((one) => one.course === course);
    return dishes
      .filter((dish) => of.some((one) => isOf(one, course, dish)))
      .flatMap((dish) => dish.conflicts.map((conflict) => ({ dish, conflict })))
      .filter(({ conflict }) => !of.some((one) => isSafe(one, dishes, conflict.person)));
  });
}

function isSafe(one: Pick, dishes: MenuDish[], person: string): boolean {
  if (one.person === person) return true;
  const known = dishes.find((dish) => isOf(one, one.course, dish));
  return known?.conflicts.every((conflict) => conflict.person !== person) ?? false;
}

/** The dishes as the house is told them; without portions a dish is for everybody. */
export function chosenDishes(picks: Pick[]): BodyOf<"confirm">["dishes"] {
  return picks.map(({ course, dish, variant, portions }) => ({
    course,
    dish,
    ...(variant === null ? {} : { variant }),
    ...(portions.trim() === "" ? {} : { portions: Number(portions) }),
  }));
}

/** The courses from which nothing has been picked yet. */
export function unpicked(row: MenuRow, picks: Pick[]): string[] {
  const names = row.courses.map(({ course }) => course);
  return names.filter((course) => picks.every((one) => one.course !== course));
}
