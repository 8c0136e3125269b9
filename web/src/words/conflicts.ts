/** Who cannot eat a dish, said the same way wherever it is said. */
import type { Conflict, InsteadRow } from "../door/rows";
import { dishName } from "./menus";

/** A conflict; without a name for who is not told whose it is. */
export type Against = Omit<Conflict, "person"> & { person: string | null };

export const NOTHING_SAFE = "no dish of the house is known to be safe for them: ask the chef";

/** `Ottilie`; whoever it is, where that is not told. */
export function whoSaid(person: string | null): string {
  return person ?? "somebody at the table";
}

/** `it contains nuts (Walnuts)`. */
export function holdsSaid(
  against: Pick<Conflict, "cannot_eat" | "certainty"> & { through?: string[] },
): string {
  const through = against.through?.length ? ` (${against.through.join(", in it ")})` : "";
  const how = against.certainty === "contains" ? "contains" : "may contain";
  return `it ${how} ${against.cannot_eat}${through}`;
}

/** `safe: Green salad, which is not on this menu`. */
export function safeSaid({ safe }: Pick<Conflict, "safe">, state: string): string {
  if (!safe) return NOTHING_SAFE;
  const beside = safe.on_menu || state === "proposed" ? "" : ", which is not on this menu";
  return `safe: ${dishName(safe)}${beside}`;
}

/** `For Ottilie: not Walnut salad, it contains nuts`, of a dish that is thought of. */
export function notFor(
  against: InsteadRow["against"][number] & { through?: string[] },
  dish: string,
): string {
  return `For ${whoSaid(against.person)}: not ${dish}, ${holdsSaid(against)}`;
}
