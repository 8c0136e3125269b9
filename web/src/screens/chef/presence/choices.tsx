import { now } from "../../../door/clock";
import type { Reports } from "../../../door/rows";
import { dayName, dayOf } from "../../../words/time";

type Told = Reports["presence"];

const AHEAD = 28;
const A_DAY = 86_400_000;

/** The days that can be chosen, today first. */
export function daysAhead(zone: string): { value: string; label: string }[] {
  const today = Date.parse(`${dayOf(new Date(now.value), zone)}T00:00:00Z`);
  return Array.from({ length: AHEAD }, (_, day) => {
    const value = new Date(today + day * A_DAY).toISOString().slice(0, 10);
    return { value, label: dayName(value) };
  });
}

/** The tables that have meals, by rank. */
export function tablesOf(told: Told): string[] {
  return [...new Set(told.rows.map(({ table }) => table))];
}

/** The meals of a table in the order of the day. */
export function mealsOf(told: Told, table: string): string[] {
  const clock = (at: string) => at.slice(11);
  const rows = told.rows.filter((row) => row.table === table);
  const meals = new Map(rows.map((row) => [row.meal, clock(row.at)]));
  return [...meals].sort(([, one], [, other]) => one.localeCompare(other)).map(([meal]) => meal);
}
