import type { StockRow } from "../rows";
import { asPrinted } from "./label_numbers";

/** Whether a label is on a batch: its own, or a numbered one, of which the hyphen may be left out. */
export function isOn(row: Pick<StockRow, "label" | "numbered">, label: string): boolean {
  // a copy kept by an earlier build says nothing of numbered labels
  const names = [row.label, ...(row.numbered ?? [])];
  return names.includes(label) || names.includes(asPrinted(label) ?? label);
}

/** Whether a name is a batch's: its id, which it has before it has a label, or a label that is on it. */
export function isNamed(
  row: Pick<StockRow, "batch" | "label" | "numbered">,
  name: string,
): boolean {
  return row.batch === name || isOn(row, name);
}
