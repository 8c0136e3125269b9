import type { BodyOf } from "../command";
import type { CountsRow } from "../rows";
import type { Entry } from "../store";
import { madeAt } from "./made_at";
import { notTakenBack } from "./taken_back";

/**
 * The storage areas once these counts are in: when each was counted and by whom, and what is due no more. Of what
 * was counted batch by batch only the house knows the item.
 */
export function countsShown(rows: CountsRow[], fresh: Entry[]): CountsRow[] {
  let shown = rows;
  for (const entry of notTakenBack(fresh)) {
    const { command } = entry;
    if (command.kind !== "count") continue;
    const { body, person } = command;
    const at = madeAt(entry);
    shown = shown.map((row) => (isOf(row, body) ? counted(row, body, at, person) : row));
  }
  return shown;
}

function isOf(row: CountsRow, { area }: BodyOf<"count">): boolean {
  return row.area_id === area || row.area === area;
}

function counted(row: CountsRow, body: BodyOf<"count">, at: string, person = ""): CountsRow {
  const done = new Set(body.lines.map(({ item }) => item));
  const lines = row.lines.map((line) =>
    done.has(line.item_id) ? { ...line, counted_at: at, why: null } : line,
  );
  const due = lines.filter(({ why }) => why !== null).length;
  return { ...row, counted_at: at, counted_by: person, due, lines };
}
