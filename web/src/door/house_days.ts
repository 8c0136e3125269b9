/** Days of the house and the instants they end with (SL1): the same as `pantry/rules/house_time.py`. */
import { dayOf } from "./clock";

const SECOND = 1_000;
const DAY = 86_400_000;
/** No zone's day begins or ends further than this from that of UTC. */
const FARTHEST = 15 * 3_600_000;

/** RFC 3339 in UTC and whole seconds, as the house writes an instant; such texts sort by time. */
export function written(at: number): string {
  return `${new Date(at).toISOString().slice(0, 19)}Z`;
}

/** A civil date so many days on. */
export function daysOn(date: string, days: number): string {
  return written(Date.parse(`${date}T00:00:00Z`) + days * DAY).slice(0, 10);
}

/** The last day of a date mark that may name only its month: `2028-02` ends on `2028-02-29`. */
export function lastDay(date: string): string {
  if (date.length > 7) return date;
  const [year = 0, month = 1] = date.split("-").map(Number);
  return written(Date.UTC(year, month, 0)).slice(0, 10);
}

/** The last second of a civil date in the house's zone, as an instant; clocks may change on that day. */
export function endOf(date: string, zone: string): string {
  const middle = Date.parse(`${date}T00:00:00Z`);
  let within = (middle - FARTHEST) / SECOND;
  let beyond = (middle + DAY + FARTHEST) / SECOND;
  while (beyond - within > 1) {
    const at = Math.floor((within + beyond) / 2);
    if (dayOf(new Date(at * SECOND), zone) <= date) within = at;
    else beyond = at;
  }
  return written(within * SECOND);
}

/** The seconds of an exact span such as `PT12H` or `P1DT6H`, a day as 24 hours; null where it is none. */
export function secondsOf(span: string): number | null {
  const found = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/.exec(span);
  if (!found) return null;
  const [days = 0, hours = 0, minutes = 0, seconds = 0] = found
    .slice(1)
    .map((part) => Number(part ?? 0));
  return ((days * 24 + hours) * 60 + minutes) * 60 + seconds;
}
