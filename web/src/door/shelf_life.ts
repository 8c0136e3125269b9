/**
 * How long a batch may be used, and what opening, freezing and thawing make of it (SL2, SL3): the same rule as
 * `pantry/rules/shelf_life.py`, held to it by the vectors that both run. Instants are RFC 3339 in UTC and whole
 * seconds, which sort by time. Local codes, the maker's label and licensed practice come first.
 */
import { dayOf } from "./clock";
import { daysOn, endOf, secondsOf, written } from "./house_days";

export interface Life {
  /** The last instant it may be used (safety); null: no limit is known. */
  usable: string | null;
  /** The last instant of full quality; null: no limit is known. */
  good: string | null;
  /** It lies in the freezer, where the safety clock stands still. */
  isFrozen: boolean;
  /** What was left of the safety clock when it was frozen: `P3D` in days, the first that of thawing, or exact. */
  left: string | null;
}

/** So many days, the day it begins being day 1, or hours; where both are given the earlier ends it. */
export interface Keeps {
  days?: number | null;
  hours?: number | null;
}

/** How something is thawed: its life from then on, and how many seconds it takes. */
export interface Thawing {
  hours: number | null;
  takes: number;
  /** Whether what was left runs from when it was taken out, and not from when it has thawed. */
  counts: boolean;
}

/** Whether it may be used at this instant; the last instant is included (SL2). */
export function usableAt(until: string | null, at: string): boolean {
  return until === null || at <= until;
}

/** What a row of the shelf says of its dates; what may not be used for another reason is told so. */
interface Dates {
  usable: boolean;
  flagged: boolean;
  usable_until: string | null;
  good_until: string | null;
}

/** A batch at an instant: what was told of it may be days old, and a date may have passed since (SL2). */
export function standingAt<Row extends Dates>(row: Row, at: string): Row {
  const { usable, usable_until: until, good_until: good } = row;
  return { ...row, usable: usable && usableAt(until, at), flagged: good !== null && at > good };
}

/** The life that a date mark gives: use-by is safety, best-before is quality (SL1, SL2). */
export function ofMark(
  kind: "use_by" | "best_before" | "none",
  date: string | null,
  zone: string,
  isFrozen = false,
): Life {
  const end = date === null ? null : endOf(date, zone);
  const usable = kind === "use_by" ? end : null;
  return { usable, good: kind === "best_before" ? end : null, isFrozen, left: null };
}

/** What was opened, or packed anew, ends with the earlier of the parent's life and its own. */
export function opened(parent: Life, at: string, own: Keeps, zone: string): Life {
  const end = ends(at, own, zone);
  if (end === null) return parent;
  if (!parent.isFrozen) return { ...parent, usable: earliest(parent.usable, end) };
  const before = parent.left && resumed(parent.left, at, zone);
  return { ...parent, left: leftAt(earliest(before, end) ?? end, at, zone) };
}

/** What was frozen keeps what was left; null where it could not be used any more, and is not frozen. */
export function frozen(parent: Life, at: string, days: number | null, zone: string): Life | null {
  if (parent.isFrozen) return parent;
  if (!usableAt(parent.usable, at)) return null;
  const left = parent.usable && leftAt(parent.usable, at, zone);
  const isPast = parent.good !== null && at > parent.good;
  return {
    usable: null,
    good: isPast ? parent.good : ends(at, { days }, zone),
    isFrozen: true,
    left,
  };
}

/** From the end of thawing it has the lesser of what was left and the thawed life; null: neither is known. */
export function thawed(parent: Life, at: string, thawing: Thawing, zone: string): Life | null {
  const through = later(at, thawing.takes);
  const from = thawing.counts ? at : through;
  const usable = earliest(
    parent.usable,
    ends(through, { hours: thawing.hours }, zone),
    parent.left && resumed(parent.left, from, zone),
  );
  return usable ? { usable, good: parent.good, isFrozen: false, left: null } : null;
}

/** The last instant of a life that begins at an instant; null where none is given. */
export function ends(at: string, { days, hours }: Keeps, zone: string): string | null {
  const byDays = days == null ? null : endOf(daysOn(dayOf(at, zone), days - 1), zone);
  return earliest(byDays, hours == null ? null : later(at, hours * 3600));
}

function leftAt(until: string, at: string, zone: string): string {
  const last = dayOf(until, zone);
  if (until !== endOf(last, zone)) return exactly((Date.parse(until) - Date.parse(at)) / 1000);
  const days = (Date.parse(last) - Date.parse(dayOf(at, zone))) / 86_400_000 + 1;
  return `P${days}D`;
}

function resumed(left: string, at: string, zone: string): string | null {
  const days = /^P(\d+)D$/.exec(left)?.[1];
  if (days) return endOf(daysOn(dayOf(at, zone), Number(days) - 1), zone);
  const seconds = secondsOf(left);
  return seconds === null ? null : later(at, seconds);
}

function exactly(seconds: number): string {
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const parts = [
    hours && `${hours}H`,
    minutes && `${minutes}M`,
    seconds % 60 && `${seconds % 60}S`,
  ];
  return `PT${parts.filter(Boolean).join("") || "0S"}`;
}

function later(at: string, seconds: number): string {
  return written(Date.parse(at) + seconds * 1000);
}

function earliest(...instants: (string | null)[]): string | null {
  const [first = null] = instants.filter((each) => each !== null).sort();
  return first;
}
