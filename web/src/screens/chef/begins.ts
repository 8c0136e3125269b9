import { useReport } from "../../door/reports";
import type { HouseRow, PresenceRow } from "../../door/rows";
import { moment } from "../../words/time";
import { isAt, type MealOf } from "./draft";
import { useIfSo } from "./if_so";

/** How many a menu begins with, and what that is made of. */
export interface Begins {
  covers: string;
  /** Who said it last, and when; null: as usual, or nobody has said anything. */
  said: PresenceRow["said"];
  madeOf: PresenceRow["made_of"];
}

/** The number that was said for a meal, else the one that is usual at its table. */
export function beginsOf(rows: PresenceRow[], house: HouseRow, meal: MealOf): Begins {
  const row = rows.find((each) => isAt(each, meal));
  const usual = house.tables.find(({ table }) => table === meal.table)?.usual_covers ?? null;
  const covers = row?.covers ?? usual;
  return {
    covers: String(covers ?? 1),
    said: row?.said ?? null,
    madeOf:
      row?.made_of ??
      (usual === null
        ? []
        : [{ what: "usual", heads: usual, id: null, who: null, said_by: null, said_at: null }]),
  };
}

/** `6: said by Anna today 08:45`, `4 as usual`. */
export function whence({ covers, said, madeOf }: Begins, zone: string, at: number): string {
  if (said) return `${covers}: said by ${said.said_by} ${moment(said.said_at, zone, at)}`;
  return madeOf.length > 0 ? `${covers} as usual` : "Nobody has said how many eat.";
}

/** The same beside a number that stands there: whence it is, or what was said instead of it. */
export function besideNumber(number: string, begins: Begins, zone: string, at: number): string {
  const words = whence(begins, zone, at);
  return number === begins.covers ? words.replace(/^\d+:? /, "") : words;
}

/** What was said of who eats on some days, at these meals too where a table does not have them; null: not told yet. */
export function useSaidOn(first: string, days: number, meals: string[]): PresenceRow[] | null {
  const args = { from: first, days: String(days), meals: meals.join(",") };
  const told = useReport<PresenceRow>("presence", args);
  return told.said.value?.rows ?? (told.problem.value ? [] : null);
}

/** The same for a meal that the house does not know by name; null: it is none, or not told yet. */
export function useSaidOf({ date, meal }: MealOf, isOther: boolean): PresenceRow[] | null {
  const args = { from: date, days: "1", meals: meal };
  const told = useIfSo<PresenceRow>(
    isOther && meal ? `/api/reports/presence?${new URLSearchParams(args)}` : null,
  );
  return isOther ? told.rows.value : null;
}
