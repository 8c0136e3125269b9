import type { ItemRow } from "../../../door/rows";
import { plus, times } from "../../../door/sums";
import { moved } from "../../../words/numbers";

type Pack = ItemRow["packs"][number];

/** What a person keys of one line: whole packs, and what is opened or loose. */
export interface Keyed {
  packs: string;
  loose: string;
  /** Whether what is loose is keyed in the larger unit: kg of an item in g, l of one in ml. */
  inLarger: boolean;
}

const LARGER: Record<string, string> = { g: "kg", ml: "l" };

/** The unit in which what is loose is keyed. */
export function looseUnit(unit: string, inLarger: boolean): string {
  return inLarger ? (LARGER[unit] ?? unit) : unit;
}

export function hasLarger(unit: string): boolean {
  return unit in LARGER;
}

/** The packs in which an item may stand on a shelf, each size once. */
export function packsOf(item: ItemRow): Pack[] {
  return item.packs.filter(
    (pack, at) =>
      item.packs.findIndex(
        (each) => each.pack === pack.pack && each.quantity.value === pack.quantity.value,
      ) === at,
  );
}

/** How much that is in the item's own unit; null where nothing was keyed or it cannot be read. */
export function inAll(keyed: Keyed, item: ItemRow, pack: Pack | undefined): string | null {
  const packs = pack ? read(keyed.packs) : "";
  const loose = read(keyed.loose);
  if (packs === null || loose === null || (packs === "" && loose === "")) return null;
  if (packs.includes(".")) return null;
  const whole = pack && packs ? times(pack.quantity.value, Number(packs)) : "0";
  const shift = keyed.inLarger && hasLarger(item.unit) ? 3 : 0;
  return plus(whole, loose ? moved(loose, shift) : "0");
}

/** A keyed number as decimal text, empty where there is none; null where it is no number. */
function read(typed: string): string | null {
  const text = typed.trim().replace(",", ".");
  if (text === "") return "";
  return /^\d{1,7}(\.\d{1,3})?$/.test(text) ? text : null;
}
