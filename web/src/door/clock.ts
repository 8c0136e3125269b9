import { signal } from "@preact/signals";

let ahead = 0;

/** What to add to this device's clock for the house's, in milliseconds (a demo house has its own). */
export function aheadBy(): number {
  return ahead;
}

/** The house's time, moved on every half minute for what is drawn from it. */
export const now = signal(Date.now());

/** Take up what the house's clock said when this device's own said `at`, in milliseconds. */
export function setClock(houseNow: string, at = Date.now()): void {
  ahead = Date.parse(houseNow) - at;
  now.value = Date.now() + ahead;
}

/** The house's present instant. */
export function present(): Date {
  return new Date(Date.now() + ahead);
}

/** The house's instant at one of this device's clock, in milliseconds. */
export function inTheHouse(at: number): Date {
  return new Date(at + ahead);
}

setInterval(() => {
  now.value = Date.now() + ahead;
}, 30_000);

const calendars = new Map<string, Intl.DateTimeFormat>();

/** `2027-03-10`: the date that an instant has in the house. */
export function dayOf(at: string | Date, zone: string): string {
  const calendar = calendars.get(zone) ?? new Intl.DateTimeFormat("sv-SE", { timeZone: zone });
  calendars.set(zone, calendar);
  return calendar.format(new Date(at));
}
