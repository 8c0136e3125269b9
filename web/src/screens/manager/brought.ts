import { type Answer, give, newCommand } from "../../door/command";

/** Rows of one sheet of the house book, by column. */
export type Rows = Record<string, string>[];

/**
 * Bring rows of the house book into the house: what they name takes the place of what had the same name,
 * and everything else stays. Empty cells are left out, as an empty cell of a spreadsheet is.
 */
export function bring(sheets: Record<string, Rows>): Promise<Answer> {
  const filled = Object.fromEntries(
    Object.entries(sheets).map(([name, rows]) => [
      name,
      rows.map((row) => Object.fromEntries(Object.entries(row).filter(([, cell]) => cell !== ""))),
    ]),
  );
  return give(newCommand("import_book", { sheets: filled }));
}
