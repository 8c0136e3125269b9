import { Said } from "../../parts/said";
import type { InHand } from "./in_hand";

const TAKEN = "look at what is printed on the pack";

/** What a code leaves in doubt, as a person at the door can act on it. */
const WORDS: Record<string, string> = {
  unknown_ai: `Part of the code is not known here; ${TAKEN}.`,
  lot_may_hide_a_date: `The lot may end in a date that belongs apart; ${TAKEN}.`,
  value_may_hide_a_date: `The code may hide a date; ${TAKEN}.`,
  companion_missing: "Part of the code belongs with a second one; look for it on the pack.",
  measure_missing: "The goods are sold by weight, and the code gives none: weigh them.",
  not_food_number: "The code is of something that is not eaten.",
  store_number_not_global: "The number is a shop's own, and means something else elsewhere.",
};

/** What the code in hand leaves in doubt, above the line that it filled in. */
export function CodeDoubts({ hand }: { hand: InHand | null }) {
  const said = (hand?.read.warnings ?? []).map((code) => WORDS[code] ?? code);
  if (said.length === 0) return null;
  return (
    <Said kind="due">
      {said.map((words) => (
        <span key={words}>{words}</span>
      ))}
    </Said>
  );
}
