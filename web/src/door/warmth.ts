import type { ColdPlaceRow, PlaceReading } from "./rows";
import { less, sign } from "./sums";

export type Warmth = PlaceReading["warmth"];

/** How a temperature, decimal text, stands to the limits of its place: as the house will judge it. */
export function warmthOf({ min_c, max_c }: ColdPlaceRow, temperature: string): Warmth {
  if (sign(less(temperature, max_c)) > 0) return "too_warm";
  return min_c !== null && sign(less(temperature, min_c)) < 0 ? "too_cold" : "within";
}
