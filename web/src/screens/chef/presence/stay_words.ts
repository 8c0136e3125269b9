import type { Reports, StayChangeRow } from "../../../door/rows";
import { STATES } from "../../../words/menus";
import { dayName } from "../../../words/time";

export type OneStay = Reports["presence"]["stays"][number];
type Ends = Pick<OneStay, "first" | "first_at" | "last" | "last_at">;

/** `Fri 12 Mar dinner to Mon 15 Mar lunch`, `Wed 24 Mar, dinner`, `Wed 24 Mar until further notice`. */
export function stayWords({ first, first_at, last, last_at }: Ends): string {
  const at = (mark: string | null) => (mark ? ` ${mark}` : "");
  if (!last) return `${dayName(first)}${at(first_at)} until further notice`;
  if (first !== last) return `${dayName(first)}${at(first_at)} to ${dayName(last)}${at(last_at)}`;
  if (!first_at && !last_at) return `${dayName(first)}, all day`;
  if (first_at === last_at) return `${dayName(first)}, ${first_at}`;
  return `${dayName(first)}, ${first_at ?? "the first meal"} to ${last_at ?? "the last meal"}`;
}

/** What becomes of the menu, in words. */
export function followingSaid({ following, state, covers, would_be }: StayChangeRow): string {
  const stands = `${STATES[state]} for ${covers}`;
  if (following === "agrees") return `${stands}, as it is said then`;
  if (following === "keeps") return `${stands}, a number of the chef's: it stays`;
  if (following === "follows") return `${stands}: it is for ${would_be} then`;
  return would_be
    ? `${stands}: the chef is asked`
    : `${stands}, and nobody eats: the chef is asked`;
}
