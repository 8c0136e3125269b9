import { Refused } from "../problem";
import type { CodeRow, ItemRow, StockRow } from "../rows";
import { carrying } from "./carries";
import { isOn } from "./is_on";
import { read } from "./read";
import { type Scan, silent } from "./scan";

/** What is known on this device of what a code may be on. */
export interface Known {
  items: readonly ItemRow[];
  stock: readonly StockRow[];
  /** The house's civil date, ISO 8601. */
  today: string;
}

/**
 * What a code says and what in the house carries it, as the house's report `code` answers it; only a label of
 * which nothing stands any more is not known here. Throws `Refused` for what cannot be read.
 */
export function lookUp(text: string, { items, stock, today }: Known): CodeRow {
  const label = text.trim();
  const isLabel = stock.some((row) => isOn(row, label));
  const scan = readOr(text, today, isLabel ? { ...silent(null), label } : null);
  // what a scanner says in front of a label is not of the label
  const on = isLabel ? label : scan.label;
  const labelled = stock.filter((row) => on !== null && isOn(row, on));
  return { read: scan, matches: carrying(scan, items, labelled, stock) };
}

/** The scan; a label of the house may be written as no code would be. */
function readOr(text: string, today: string, label: Scan | null): Scan {
  try {
    return read(text, today);
  } catch (error) {
    if (error instanceof Refused && label) return label;
    throw error;
  }
}
