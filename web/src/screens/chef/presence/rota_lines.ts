import type { BodyOf } from "../../../door/command";
import type { Reports } from "../../../door/rows";
import { dayName } from "../../../words/time";

export const WEEKDAYS = [
  "Monday",
  "Tuesday",
  "Wednesday",
  "Thursday",
  "Friday",
  "Saturday",
  "Sunday",
];

type Line = Reports["presence"]["rotas"][number]["lines"][number];
export type Part = BodyOf<"set_rota">["lines"][number];

/** A line of a rota as a command carries it. */
export function partOf({ heads, weekday, date, meal }: Line): Part {
  const when = date ? { date } : { weekday: WEEKDAYS[weekday ?? 0] ?? "" };
  return { heads, ...when, ...(meal ? { meal } : {}) };
}

/** Whether two lines are for the same day and meal, so that one takes the other's place. */
export function isSame(one: Part, other: Part): boolean {
  const key = ({ weekday, date, meal }: Part) => [weekday, date, meal].join("|");
  return key(one) === key(other);
}

/** `Staff, Friday`. */
export function lineOf(table: string, { weekday, date }: Pick<Line, "weekday" | "date">): string {
  return `${table}, ${date ? dayName(date) : WEEKDAYS[weekday ?? 0]}`;
}
