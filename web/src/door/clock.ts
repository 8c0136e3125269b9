import { signal } from "@preact/signals";

/** What to add to this device's clock for the house's, in milliseconds (a demo house has its own). */
let ahead = 0;

/** The house's time, moved on every half minute for what is drawn from it. */
export const now = signal(Date.now());

export function setClock(houseNow: string): void {
  ahead = Date.parse(houseNow) - Date.now();
  now.value = Date.now() + ahead;
}

/** The house's present instant. */
export function present(): Date {
  return new Date(Date.now() + ahead);
}

setInterval(() => {
  now.value = Date.now() + ahead;
}, 30_000);

/** `2027-03-10`: the date that an instant has in the house. */
export function dayOf(at: string | Date, zone: string): string {
  return new Intl.DateTimeFormat("sv-SE", { timeZone: zone }).format(new Date(at));
}
