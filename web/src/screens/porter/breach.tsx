import type { Signal } from "@preact/signals";
import type { ColdPlaceRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Choice } from "../../parts/fields";
import { Said } from "../../parts/said";
import { DONE, WARMTH_MARK, warmthInWords } from "../../words/cold";
import { shownDegrees } from "../../words/temperature";

interface BreachProps {
  row: ColdPlaceRow;
  warmth: "too_warm" | "too_cold";
  /** What the thermometer shows, as it was pressed. */
  shown: string;
  done: Signal<string>;
  /** Back to the keys, where it was read wrongly. */
  onBack: () => void;
}

/** What to do about a place that is not right, at once and without the house, and what was done. */
export function Breach({ row, warmth, shown, done, onBack }: BreachProps) {
  return (
    <>
      <Said kind="due">
        <strong>
          <span aria-hidden="true">{WARMTH_MARK[warmth]} </span>
          {shownDegrees(shown, "C")}: {warmthInWords(warmth)}
        </strong>
        {warmth === "too_warm" ? (
          <span>
            Close the door, tell the chef now, and use nothing that feels warm. Look again in{" "}
            {row.again_minutes} minutes: if it is still too warm, what stands there goes on hold.
          </span>
        ) : (
          <span>Set it warmer, and look whether anything has frozen that must not.</span>
        )}
      </Said>
      <Choice legend="What was done?" value={done} options={[...DONE]} />
      <Button kind="quiet" onClick={onBack}>
        Read it again
      </Button>
    </>
  );
}
