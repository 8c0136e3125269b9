import type { FailedPlaceRow } from "../door/rows";

/** A cold place that failed, with what it put on hold and nobody has decided on. */
export interface PlaceHeld {
  area_id: string;
  area: string;
  rows: FailedPlaceRow[];
}

/** The batches by the place that failed, in the order in which they were told. */
export function byPlace(rows: FailedPlaceRow[]): PlaceHeld[] {
  const places = new Map<string, PlaceHeld>();
  for (const row of rows) {
    const { area_id, area } = row;
    const place = places.get(area_id) ?? { area_id, area, rows: [] };
    place.rows.push(row);
    places.set(area_id, place);
  }
  return [...places.values()];
}

interface VerdictWords {
  /** The form beside the words: nothing is said by colour alone. */
  mark: string;
  brief: string;
  full: string;
}

const CLEAR: VerdictWords = {
  mark: "✓",
  brief: "may be kept",
  full: "Within what the policy allows",
};
const LOOK: VerdictWords = {
  mark: "!",
  brief: "look at it first",
  full: "Within what the policy allows, but its place is still too warm, or something else speaks against it",
};
const ASK: VerdictWords = {
  mark: "?",
  brief: "you decide",
  full: "The readings do not tell: you decide",
};
const REFUSE: VerdictWords = {
  mark: "✕",
  brief: "throw it away",
  full: "Past what the policy allows: throw it away",
};

/** What is to be said of a batch: the policy's word, and whether anything else speaks against it. */
export function verdictOf({ verdict, clear }: FailedPlaceRow): VerdictWords {
  if (verdict === "accept") return clear ? CLEAR : LOOK;
  return verdict === "ask" ? ASK : REFUSE;
}

/** `3 batches on hold: 2 may be kept, 1 you decide.` */
export function heldInWords({ rows }: PlaceHeld): string {
  const each = [CLEAR, LOOK, ASK, REFUSE].flatMap((words) => {
    const count = rows.filter((row) => verdictOf(row) === words).length;
    return count === 0 ? [] : [`${count} ${words.brief}`];
  });
  return `${rows.length === 1 ? "1 batch" : `${rows.length} batches`} on hold: ${each.join(", ")}.`;
}

/** Whether all that is left in a place may be kept together: nothing speaks against any of it. */
export function isClear({ rows }: PlaceHeld): boolean {
  return rows.length > 1 && rows.every(({ clear }) => clear);
}

/** Why it was kept, where the policy allows it and nobody says more. */
export const keptWhy = "kept after its place failed";
