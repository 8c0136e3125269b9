import { isOn } from "../codes/is_on";
import type { StockRow } from "../rows";
import type { Entry } from "../store";
import { takenBack } from "./taken_back";

/** What stands in the house, once the numbered labels that this device put on or took off are in it. */
export function labelsShown(rows: StockRow[], fresh: Entry[], all: Entry[]): StockRow[] {
  const back = takenBack(fresh);
  let shown = rows;
  for (const { id, command } of all) {
    if (command.kind !== "bind_label") continue;
    const { batch, label } = command.body;
    const isKnown = !fresh.some((each) => each.id === id);
    if (back.has(id) && isKnown) shown = without(shown, label);
    else if (!back.has(id) && !isKnown) {
      shown = without(shown, label).map((row) =>
        row.batch === batch && !isOn(row, label)
          ? { ...row, numbered: [...(row.numbered ?? []), label] }
          : row,
      );
    }
  }
  return shown;
}

function without(rows: StockRow[], label: string): StockRow[] {
  return rows.map((row) =>
    row.numbered?.includes(label)
      ? { ...row, numbered: row.numbered.filter((each) => each !== label) }
      : row,
  );
}
