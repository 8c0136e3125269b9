import { isGiven } from "../../door/command";
import type { StockRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { isNothing } from "../../words/amounts";
import { type Recorded, strike } from "./recorded";

interface ToldProps {
  one: Recorded;
  /** The batch as it stands, once the house has told; it has the label. */
  batch: StockRow | undefined;
}

/** What was recorded of a line, with its label and the way back. */
export function Told({ one, batch }: ToldProps) {
  const { busy, answer, decide } = useGiving();
  const problem = answer.value?.problem;
  const undo = async () => {
    answer.value = null;
    const body = { command: one.command, reason: "recorded by mistake" };
    const given = await decide("correct", body);
    if (!isGiven(given)) return;
    strike(one);
    // the button that had the focus is gone
    document.getElementById("place")?.focus();
  };
  return (
    <Said kind={isPlain(one, batch) ? "done" : "due"}>
      <strong>{heading(one, batch)}</strong>
      <span>
        {one.words}
        {one.more.map((part) => ` · ${part}`)}
      </span>
      {one.kept && <span>{one.kept}</span>}
      {batch?.label && (
        <span>
          Label{" "}
          <Link class="touch figure" to={`/shelf/${encodeURIComponent(batch.label)}`}>
            {batch.label}
          </Link>
        </span>
      )}
      {one.verdict === "refuse" && <span>It never entered the stock and is still awaited.</span>}
      {!one.kept && (
        <div>
          <Button onClick={() => void undo()} disabled={busy.value}>
            Undo
          </Button>
        </div>
      )}
      {problem && <Wrong problem={problem} />}
    </Said>
  );
}

/** The house may hold what the porter accepted: too warm, recalled. */
function isHeld(one: Recorded, batch: StockRow | undefined): boolean {
  return batch ? !isNothing(batch.on_hold) : one.verdict === "hold";
}

function isPlain(one: Recorded, batch: StockRow | undefined): boolean {
  return !one.kept && one.verdict !== "refuse" && !isHeld(one, batch);
}

function heading(one: Recorded, batch: StockRow | undefined): string {
  if (one.kept) return `${one.item}: written down, but not booked`;
  if (one.verdict === "refuse") return `${one.item} refused`;
  return isHeld(one, batch) ? `${one.item} on hold for the chef` : `${one.item} accepted`;
}
