/** The date on a pack as it is keyed with a thumb, and said back in words to be compared with the pack. */
import { dayName, daysBetween } from "./time";

const BACK = 60;
const AHEAD = 305;

function isDay(date: string): boolean {
  const at = new Date(`${date}T00:00:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().slice(0, 10) === date;
}

/**
 * The date that digits say: `DDMM`, `DDMMYY`, or `00MMYY` for a pack that names only its month.
 *
 * Without a year it is the one that falls between sixty days ago and ten months ahead of today.
 * Null where the digits are too few or no such day exists.
 */
export function keyedDate(digits: string, today: string): string | null {
  const found = /^(\d\d)(\d\d)(\d\d)?$/.exec(digits);
  if (!found) return null;
  const [, day = "", month = "", short] = found;
  if (short) {
    const year = `${today.slice(0, 2)}${short}`;
    if (day === "00") return isDay(`${year}-${month}-01`) ? `${year}-${month}` : null;
    return isDay(`${year}-${month}-${day}`) ? `${year}-${month}-${day}` : null;
  }
  const years = [-1, 0, 1].map((more) => String(Number(today.slice(0, 4)) + more));
  const near = years
    .map((year) => `${year}-${month}-${day}`)
    .filter((date) => isDay(date))
    .find((date) => daysBetween(today, date) >= -BACK && daysBetween(today, date) <= AHEAD);
  return near ?? null;
}

/** `Fri 19 March 2027`, or `March 2028`: always with its year, since a pack has one. */
export function packDate(date: string): string {
  if (date.length > 7) return `${dayName(date)} ${date.slice(0, 4)}`;
  const at = new Date(`${date}-01T00:00:00Z`);
  return new Intl.DateTimeFormat("en-GB", {
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  }).format(at);
}
