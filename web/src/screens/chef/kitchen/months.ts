/** A month of the civil calendar as `2027-03`. */

const NAMES = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

export function monthOf(day: string): string {
  return day.slice(0, 7);
}

/** So many months later, or before. */
export function monthAfter(month: string, by: number): string {
  const [year, of] = parts(month);
  const months = year * 12 + of - 1 + by;
  return `${Math.floor(months / 12)}-${String((months % 12) + 1).padStart(2, "0")}`;
}

/** `June 2027`. */
export function monthName(month: string): string {
  const [year, of] = parts(month);
  return `${NAMES[of - 1]} ${year}`;
}

export function firstDay(month: string): string {
  return `${month}-01`;
}

export function lastDay(month: string): string {
  const [year, of] = parts(month);
  return new Date(Date.UTC(year, of, 0)).toISOString().slice(0, 10);
}

function parts(month: string): [number, number] {
  const [year, of] = month.split("-").map(Number);
  return [year ?? 0, of ?? 1];
}
