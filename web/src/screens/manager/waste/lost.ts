import type { WasteRow } from "../../../door/rows";
import { plus } from "../../../door/sums";

/** Whether it could have been kept from being lost, in the words of the screen. */
export type Class = "avoidable" | "unavoidable" | "not classed";
export const CLASSES: readonly Class[] = ["avoidable", "unavoidable", "not classed"];

export function classOf({ avoidable }: WasteRow): Class {
  if (avoidable === null) return "not classed";
  return avoidable ? "avoidable" : "unavoidable";
}

/** What rows come to together. */
export interface Sum {
  name: string;
  rows: WasteRow[];
  minor: number;
  /** In grams, of what somebody can weigh. */
  grams: string;
  /** How many rows nobody can weigh. */
  unweighed: number;
}

export function sumOf(name: string, rows: WasteRow[]): Sum {
  const minor = rows.reduce((sum, { value }) => sum + value.minor, 0);
  return { name, rows, minor, ...weighed(rows) };
}

/** What rows weigh together, and how many of them nobody can weigh. */
export function weighed(rows: Pick<WasteRow, "weight">[]): Pick<Sum, "grams" | "unweighed"> {
  return {
    grams: rows.reduce((sum, { weight }) => plus(sum, weight?.value ?? "0"), "0"),
    unweighed: rows.filter(({ weight }) => weight === null).length,
  };
}

/** Rows by what they have in common, the dearest first. */
export function grouped(rows: WasteRow[], by: (row: WasteRow) => string): Sum[] {
  return [...new Set(rows.map(by))]
    .map((name) =>
      sumOf(
        name,
        rows.filter((row) => by(row) === name),
      ),
    )
    .sort((one, other) => other.minor - one.minor || one.name.localeCompare(other.name));
}

export interface Week {
  monday: string;
  covers: number;
  all: Sum;
  classes: Record<Class, number>;
}

/** Each week that something was lost in, the oldest first. */
export function weeksOf(rows: WasteRow[]): Week[] {
  return [...new Set(rows.map(({ monday }) => monday))].sort().map((monday) => {
    const of = rows.filter((row) => row.monday === monday);
    const minor = (name: Class) =>
      sumOf(
        name,
        of.filter((row) => classOf(row) === name),
      ).minor;
    return {
      monday,
      covers: of[0]?.covers ?? 0,
      all: sumOf(monday, of),
      classes: {
        avoidable: minor("avoidable"),
        unavoidable: minor("unavoidable"),
        "not classed": minor("not classed"),
      },
    };
  });
}

/** A sum for each cover, to the nearest minor unit, half up; null where nobody was served. */
export function perCover(minor: number, covers: number): number | null {
  if (covers <= 0) return null;
  return Number((2n * BigInt(minor) + BigInt(covers)) / (2n * BigInt(covers)));
}

/** The Monday of so many weeks of which that of `day` is the last. */
export function mondayBefore(day: string, weeks: number): string {
  const at = new Date(`${day}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() - ((at.getUTCDay() + 6) % 7) - 7 * (weeks - 1));
  return at.toISOString().slice(0, 10);
}
