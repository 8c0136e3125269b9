/** The weekdays as the house writes them, as they are chosen. */
export const WEEKDAYS = [
  "monday",
  "tuesday",
  "wednesday",
  "thursday",
  "friday",
  "saturday",
  "sunday",
].map((value) => ({ value, label: capital(value) }));

/** `Monday` of `monday`. */
export function capital(weekday: string): string {
  return `${weekday[0]?.toUpperCase()}${weekday.slice(1)}`;
}
