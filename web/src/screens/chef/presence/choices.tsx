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

interface Option {
  value: string;
  label: string;
}

/** Options with what is chosen among them, where that is no longer or not yet one: what is earlier first. */
export function among(
  options: Option[],
  chosen: string,
  name = (value: string) => value,
): Option[] {
  if (!chosen || options.some(({ value }) => value === chosen)) return options;
  const own = { value: chosen, label: name(chosen) };
  return chosen < (options[0]?.value ?? "") ? [own, ...options] : [...options, own];
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
