import type { DishRow } from "../../door/rows";

const MONTHS =
  "January February March April May June July August September October November December";

function dayOfYear(written: string): string {
  const [month = "1", day = "1"] = written.split("-").slice(-2);
  return `${Number(day)} ${MONTHS.split(" ")[Number(month) - 1]}`;
}

type Season = Pick<DishRow, "season_from" | "season_to">;

/** `In season 15 March to 15 May.`; nothing for what is always in season. */
export function seasonSaid({ season_from, season_to }: Season): string {
  if (!season_from || !season_to) return "";
  return `In season ${dayOfYear(season_from)} to ${dayOfYear(season_to)}.`;
}

/** Whether a civil date is within the season; both ends are, and a season may wrap the year's end. */
export function isInSeason({ season_from, season_to }: Season, date: string): boolean {
  if (!season_from || !season_to) return true;
  const [day, first, last] = [date, season_from, season_to].map((each) => each.slice(-5));
  if (!day || !first || !last) return true;
  return first <= last ? first <= day && day <= last : day >= first || day <= last;
}
