import type { CoverageRow } from "../../door/rows";
import { isNothing } from "../../words/amounts";
import type { Pick } from "./choice";

/** What becomes of each item when a menu is confirmed. */
export interface Outcome {
  /** Set aside from what stands on the shelf. */
  stock: CoverageRow[];
  /** Made in the kitchen, or on its way. */
  coming: CoverageRow[];
  /** Short, and still to be ordered, the soonest first. */
  buy: CoverageRow[];
  /** Short, and not to be bought in time. */
  gone: CoverageRow[];
}

export function outcomeOf(coverage: CoverageRow[], picks: Pick[], now: number): Outcome {
  const rows = coverage.filter((row) => picks.some((one) => isFor(row, one)));
  const short = rows.filter((row) => !isNothing(row.short));
  const whole = rows.filter((row) => isNothing(row.short));
  return {
    stock: whole.filter((row) => row.from.every((part) => part.batch)),
    coming: whole.filter((row) => row.from.some((part) => !part.batch)),
    buy: short
      .filter((row) => canBuy(row, now))
      .sort((one, other) => (ends(one) < ends(other) ? -1 : 1)),
    gone: short.filter((row) => !canBuy(row, now)),
  };
}

function isFor(row: CoverageRow, one: Pick): boolean {
  return row.course === one.course && row.dish === one.name && row.variant === one.variant;
}

function canBuy(row: CoverageRow, now: number): boolean {
  return row.mend_until !== null && Date.parse(row.mend_until) >= now;
}

function ends(row: CoverageRow): string {
  return row.mend_until ?? "";
}

/** Items that more than one of the dishes needs: looked at dish by dish, they may count twice. */
export function neededTwice(outcome: Outcome): string[] {
  const rows = [...outcome.stock, ...outcome.coming, ...outcome.buy, ...outcome.gone];
  const dishes = new Map<string, Set<string>>();
  for (const row of rows) {
    dishes.set(row.item, (dishes.get(row.item) ?? new Set()).add(row.dish));
  }
  return [...dishes].filter(([, of]) => of.size > 1).map(([item]) => item);
}
