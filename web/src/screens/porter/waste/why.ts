import type { StockRow } from "../../../door/rows";
import { sign } from "../../../door/sums";

/** Why food is lost, as the house's report classes it; common practice, no source. */
export const REASONS = [
  "out of date",
  "spoiled",
  "spilled or damaged",
  "cooked too much",
  "spoiled in cooking",
  "came back from the table",
  "trimmings",
] as const;

/** Where it goes, the best first: the order of Directive 2008/98/EC, article 4. */
export const DESTINATIONS = ["staff", "animals", "compost", "bin"] as const;

const KEY = "waste went to";

/** Where what was lost went last on this device: it mostly goes there again. */
export function lastDestination(): string {
  const kept = localStorage.getItem(KEY) ?? "";
  return DESTINATIONS.some((each) => each === kept) && kept !== "staff" ? kept : "bin";
}

export function rememberDestination(destination: string): void {
  localStorage.setItem(KEY, destination);
}

/** Whether the last moment a batch may be used is over. */
export function isOver(row: StockRow, now: Date): boolean {
  return row.usable_until !== null && new Date(row.usable_until) < now;
}

/** What is past its last usable moment and still stands in the books, the oldest first. */
export function died(rows: StockRow[], now: Date): StockRow[] {
  return rows
    .filter((row) => isOver(row, now) && sign(row.on_hand.value) > 0)
    .sort((one, other) => (one.usable_until ?? "").localeCompare(other.usable_until ?? ""));
}

/** Where food may go: what is past its last usable moment is nobody's meal. */
export function destinationsFor(row: StockRow, now: Date): readonly string[] {
  return isOver(row, now) ? DESTINATIONS.filter((each) => each !== "staff") : DESTINATIONS;
}
