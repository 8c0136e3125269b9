/** Instants in the words of a house: its zone, its weekdays, a clock of 24 hours. */

import { dayOf } from "../door/clock";

export { dayOf };

const LOCALE = "en-GB";

const made = new Map<string, Intl.DateTimeFormat>();

function format(zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = zone + JSON.stringify(options);
  let found = made.get(key);
  if (!found) {
    found = new Intl.DateTimeFormat(LOCALE, { timeZone: zone, hourCycle: "h23", ...options });
    made.set(key, found);
  }
  return found;
}

/** `16:50`. */
export function clock(at: string | Date, zone: string): string {
  return format(zone, { hour: "2-digit", minute: "2-digit" }).format(new Date(at));
}

/** `Friday 12 March` of a civil date, or `Fri 12 Mar`. */
export function dayName(day: string, long = false): string {
  return format("UTC", {
    weekday: long ? "long" : "short",
    day: "numeric",
    month: long ? "long" : "short",
  })
    .format(new Date(`${day}T12:00:00Z`))
    .replace(",", "");
}

/** Whole days from one civil date to another. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}

/** `today`, `tomorrow`, `Friday`, or `Fri 26 Mar` from a week on. */
export function near(day: string, today: string): string {
  const away = daysBetween(today, day);
  if (away === 0) return "today";
  if (away === 1) return "tomorrow";
  if (away === -1) return "yesterday";
  if (away > 1 && away < 7) {
    return format("UTC", { weekday: "long" }).format(new Date(`${day}T12:00:00Z`));
  }
  const year = day.slice(0, 4) === today.slice(0, 4) ? "" : ` ${day.slice(0, 4)}`;
  return dayName(day) + year;
}

/** `today 16:50`, `Friday 10:55`. */
export function moment(at: string | Date, zone: string, now: string | Date | number): string {
  return `${near(dayOf(at, zone), dayOf(new Date(now), zone))} ${clock(at, zone)}`;
}

/** How long until an instant, as a person says it: `in 40 min`, `in 5 h`, `in 3 days`, `2 h ago`. */
export function until(at: string | Date, now: number): string {
  const minutes = Math.round((new Date(at).getTime() - now) / 60_000);
  const away = Math.abs(minutes);
  const said =
    away < 100
      ? `${away} min`
      : away < 36 * 60
        ? `${Math.round(away / 60)} h`
        : `${Math.round(away / 1440)} days`;
  return minutes >= 0 ? `in ${said}` : `${said} ago`;
}

/** `3 days`, `72 h`, `1 h 30 min` from an ISO 8601 duration as the house writes it. */
export function span(written: string): string {
  const found = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/.exec(written);
  if (!found) return written;
  const [, days, hours, minutes, seconds] = found;
  const parts = [
    days && (days === "1" ? "1 day" : `${days} days`),
    hours && `${hours} h`,
    minutes && `${minutes} min`,
    seconds && `${seconds} s`,
  ].filter(Boolean);
  return parts.join(" ") || "nothing";
}

/** The whole minutes of an ISO 8601 duration, where no clock changes. */
export function minutesOf(written: string | null): number {
  const found = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/.exec(written ?? "");
  const [, days = "0", hours = "0", minutes = "0"] = found ?? [];
  return (Number(days) * 24 + Number(hours)) * 60 + Number(minutes);
}

/** `3 days 1 h 30 min`: a length of notice, with its hours as days, where no clock changes. */
export function inDays(written: string): string {
  const all = minutesOf(written);
  const [days, hours, minutes] = [Math.floor(all / 1440), Math.floor(all / 60) % 24, all % 60];
  const time = `${hours ? `${hours}H` : ""}${minutes ? `${minutes}M` : ""}`;
  return span(`P${days ? `${days}D` : ""}${time ? `T${time}` : ""}`);
}

/** A text in which services stand by their ids, with the meal and table of each in words instead. */
export function inWords(text: string): string {
  return text.replace(
    /(\d{4}-\d\d-\d\d)\/([\p{L}\d-]+)\/([\p{L}\d-]+)/gu,
    (_, day, meal, table) => {
      const place = (slug: string) => slug.replaceAll("-", " ");
      return `${dayName(day)} ${place(meal)}, ${place(table)}`;
    },
  );
}
