import { now } from "../../door/clock";
import type { Problem } from "../../door/problem";
import type { MenuRow } from "../../door/rows";
import { ActBar, Button } from "../../parts/button";
import { Wrong } from "../../parts/said";
import { listed } from "../../words/amounts";
import { moment } from "../../words/time";
import { type Pick, unpicked, unsettled } from "./choice";
import type { Outcome } from "./outcomes";
import { Picture } from "./picture";

interface ConfirmBarProps {
  row: MenuRow;
  picks: Pick[];
  outcome: Outcome | null;
  zone: string;
  covers: string;
  busy: boolean;
  ready: boolean;
  /** Why the house did not take it, under the thumb where it was given. */
  problem: Problem | null;
  onConfirm: () => void;
}

/** Under the thumb: what happens in one picture, and the key that makes it so. */
export function ConfirmBar(props: ConfirmBarProps) {
  const { row, picks, outcome, zone, covers, busy, ready, problem, onConfirm } = props;
  const left = unpicked(row, picks);
  const people = [...new Set(unsettled(row, picks).map(({ conflict }) => conflict.person))];
  return (
    <ActBar>
      <div class="confirm">
        <div class="stack tight">
          {problem && <Wrong problem={problem} />}
          {outcome && picks.length > 0 && (
            <>
              <Picture outcome={outcome} />
              <span class="small">{said(outcome, zone)}</span>
            </>
          )}
          {people.length > 0 ? (
            <strong class="small warned">{listed(people)} cannot eat what is picked</strong>
          ) : (
            left.length > 0 && <span class="small soft">nothing picked yet: {listed(left)}</span>
          )}
        </div>
        <Button kind="main" disabled={busy || !ready || picks.length === 0} onClick={onConfirm}>
          {busy ? "Writing it down" : `Confirm for ${ready ? Number(covers) : "?"}`}
        </Button>
      </div>
    </ActBar>
  );
}

function said({ stock, coming, buy, gone }: Outcome, zone: string): string {
  const first = buy[0]?.mend_until;
  if (stock.length + coming.length + buy.length + gone.length === 0) return "working it out";
  return [
    `${stock.length} from the shelf`,
    coming.length > 0 && `${coming.length} made or coming`,
    buy.length > 0 &&
      `${buy.length} to order by ${first ? moment(first, zone, now.value) : "then"}`,
    gone.length > 0 && `${gone.length} cannot be had`,
  ]
    .filter(Boolean)
    .join(" · ");
}
