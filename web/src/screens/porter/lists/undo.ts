import { type Deed, deeds } from "../../../parts/doing";

/** What takes a ticked line back: what was done here, or what another has done. */
export function undoOf(command: string, place: string, words: string): Deed {
  const own = deeds.value.find((deed) => deed.command === command);
  return own ?? { command, place, words, outcome: "applied", problem: null, undone: null };
}
