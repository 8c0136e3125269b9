import type { ColdPlaceRow } from "../door/rows";
import { type Warmth, warmthOf } from "../door/warmth";
import { degrees, shownDegrees, tenths } from "./temperature";

export type DoneKey = NonNullable<DoneWord["value"]>;

interface DoneWord {
  value: "door_closed" | "look_again" | "set_colder" | "moved_food" | "called";
  label: string;
}

/** What was done where a place was not as it should be. */
export const DONE: readonly DoneWord[] = [
  { value: "door_closed", label: "Door closed" },
  { value: "look_again", label: "I look again soon" },
  { value: "set_colder", label: "Set it otherwise" },
  { value: "moved_food", label: "Food moved away" },
  { value: "called", label: "Called for help" },
];

/** What was done, in words; an unknown key as it is. */
export function doneWords(done: string): string {
  return DONE.find(({ value }) => value === done)?.label ?? done;
}

/** How a temperature stands to the limits of its place; null where it cannot be read. */
export function warmthAt(place: ColdPlaceRow, typed: string): Warmth | null {
  const said = degrees(typed);
  return said === null || tenths(typed) === null ? null : warmthOf(place, said);
}

/** `0 °C to 5 °C`, `−18 °C or colder`. */
export function limitsInWords({ min_c, max_c }: ColdPlaceRow): string {
  const high = shownDegrees(max_c, "C");
  return min_c === null ? `${high} or colder` : `${shownDegrees(min_c, "C")} to ${high}`;
}

const WARMTH: Record<Warmth, string> = {
  within: "as it should be",
  too_warm: "too warm",
  too_cold: "too cold",
};

/** The form beside the word: nothing is said by colour alone. */
export const WARMTH_MARK: Record<Warmth, string> = { within: "✓", too_warm: "▲", too_cold: "▼" };

/** How a reading stands, in words. */
export function warmthInWords(warmth: Warmth): string {
  return WARMTH[warmth];
}

/** The round that runs, where nobody has read the place in it. */
export function isLeft(place: ColdPlaceRow, now: number): boolean {
  const runs = place.rounds.at(-1);
  return Boolean(runs && !runs.taken && Date.parse(runs.end) > now);
}

/** `morning round`, `evening round`; of more than two a day, by number. */
export function roundName(place: ColdPlaceRow): string {
  const runs = place.rounds.at(-1);
  if (!runs || runs.of === 1) return "round of the day";
  if (runs.of === 2) return runs.number === 1 ? "morning round" : "evening round";
  return `round ${runs.number} of ${runs.of}`;
}
