import { now } from "../../door/clock";
import type { MenuRow } from "../../door/rows";
import { dayName, dayOf } from "../../words/time";

const AHEAD = 28;
const DAY = 86_400_000;

/** The first day on which this meal of this table has no menu yet. */
export function firstFree(
  menus: MenuRow[],
  usual: MenuRow | undefined | null,
  zone: string,
): string {
  const taken = menus.filter((row) => row.meal === usual?.meal && row.table === usual.table);
  const days = daysAhead(zone).map(({ value }) => value);
  return days.find((day) => !taken.some((row) => row.date === day)) ?? days[0] ?? "";
}

/** The days that can be proposed for, by their names. */
export function daysAhead(zone: string): { value: string; label: string }[] {
  return Array.from({ length: AHEAD }, (_, ahead) => {
    const value = dayOf(new Date(now.value + ahead * DAY), zone);
    return { value, label: dayName(value, true) };
  });
}
