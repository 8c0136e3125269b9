import type { Signal } from "@preact/signals";
import { now } from "../../door/clock";
import { Button } from "../../parts/button";
import { type Begins, whence } from "./begins";
import { partSaid } from "./presence/part_said";
import { Stepper } from "./stepper";

interface CoversBegunProps {
  covers: Signal<string>;
  /** Whether the number is as it was said, and follows what is said meanwhile. */
  follows: boolean;
  begins: Begins | null;
  zone: string;
  onFollow: (follows: boolean) => void;
}

/** How many a menu is for: what was said of it, until the chef writes another number. */
export function CoversBegun({ covers, follows, begins, zone, onFollow }: CoversBegunProps) {
  const said = begins?.said ? begins.madeOf : [];
  return (
    <div class="stack tight">
      <Stepper label="Covers" value={covers} onChange={() => onFollow(false)} />
      {begins && <p>{whence(begins, zone, now.value)}</p>}
      {said.length > 1 && <p class="soft">{said.map(partSaid).join("; ")}.</p>}
      {begins && !follows && covers.value.trim() !== begins.covers && (
        <div>
          <Button
            onClick={() => {
              covers.value = begins.covers;
              onFollow(true);
            }}
          >
            Take {begins.covers}
            <span class="unseen"> covers</span>
          </Button>
        </div>
      )}
    </div>
  );
}
