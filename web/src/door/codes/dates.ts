import { READ_THE_PACK, unreadable } from "./refused";

/**
 * The year that two digits mean on `today`, an ISO date: 51 to 99 years ahead is the previous century,
 * 50 to 99 years back the next (GS1 General Specifications, section 7.12).
 */
export function fullYear(twoDigits: number, today: string): number {
  const year = Number(today.slice(0, 4));
  const century = year - (year % 100);
  const ahead = twoDigits - (year % 100);
  if (ahead >= 51) return century - 100 + twoDigits;
  if (ahead <= -50) return century + 100 + twoDigits;
  return century + twoDigits;
}

const two = (number: number) => String(number).padStart(2, "0");

function daysIn(year: number, month: number): number {
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  if (month === 2) return isLeap ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/**
 * The ISO date that six digits, YYMMDD, mean on `today`. With `wholeMonth`, day 00 may stand and means the
 * last day of the month (GS1 General Specifications, section 3.4).
 */
export function readDate(digits: string, today: string, wholeMonth = false): string {
  const year = fullYear(Number(digits.slice(0, 2)), today);
  const month = Number(digits.slice(2, 4));
  const last = daysIn(year, month);
  const written = Number(digits.slice(4));
  const day = wholeMonth && written === 0 ? last : written;
  if (digits.length !== 6 || month < 1 || month > 12 || day < 1 || day > last) {
    throw unreadable("no_such_date", `There is no date ${digits} (YYMMDD).`, READ_THE_PACK, digits);
  }
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`;
}

/** The wall time, HH:MM, of two, four or six digits: hours, minutes, seconds. */
export function readTime(digits: string): string {
  const padded = digits.padEnd(6, "0");
  const [hours, minutes, seconds] = [0, 2, 4].map((at) => Number(padded.slice(at, at + 2)));
  if (Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 59) {
    throw unreadable("no_such_date", `There is no time ${digits} (HHMM).`, READ_THE_PACK, digits);
  }
  return `${padded.slice(0, 2)}:${padded.slice(2, 4)}`;
}
