import { isNamed } from "../codes/is_on";
import type { BodyOf } from "../command";
import { less, plus, sign } from "../sums";
import {
  grown,
  inUnit,
  lessened,
  type Named,
  replaced,
  type StandingRow,
  smaller,
} from "./batch_parts";

/** The shelf after a count: what it found stands there. */
export function counted(rows: StandingRow[], body: BodyOf<"count">, named: Named): StandingRow[] {
  const { name } = named.area(body.area);
  let shown = rows;
  for (const line of body.lines) {
    const item = line.item ? named.item(line.item)?.id : null;
    const there = shown.filter((row) =>
      line.batch ? isNamed(row, line.batch) : row.item_id === item && name in row.areas,
    );
    const found = there[0] && inUnit(line.quantity, there[0].on_hand.unit);
    if (found) shown = foundOf(shown, there, found, name);
  }
  return shown;
}

/** So much was found of these batches in an area: the first miss what is missing, the last has what is beyond. */
function foundOf(
  rows: StandingRow[],
  there: StandingRow[],
  found: string,
  area: string,
): StandingRow[] {
  const stood = there.reduce((sum, row) => plus(sum, row.areas[area]?.value ?? "0"), "0");
  let missing = less(stood, found);
  let shown = rows;
  there.forEach((row, at) => {
    const here = row.areas[area]?.value ?? "0";
    const isLast = at === there.length - 1;
    const taken = sign(missing) > 0 ? smaller(missing, here) : isLast ? missing : "0";
    missing = less(missing, taken);
    if (sign(taken) > 0) shown = replaced(shown, row, lessened({ row, value: taken }, area));
    if (sign(taken) < 0)
      shown = replaced(shown, row, grown({ row, value: less("0", taken) }, area));
  });
  return shown;
}
