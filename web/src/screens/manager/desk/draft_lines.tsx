import { now } from "../../../door/clock";
import type { PlanRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Opens } from "../../../parts/opens";
import { amount, money } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { Derived } from "../derived";
import { reason } from "../reason";
import type { DraftLine, Free } from "./draft";
import type { Changing } from "./draft_page";
import { PriceChanges } from "./price_changes";

interface LinesProps {
  lines: DraftLine[];
  free: Free[];
  changing: Changing;
  zone: string;
}

/** The lines of a draft: so many packs of what, why, and what they cost. */
export function DraftLines({ lines, free, changing, zone }: LinesProps) {
  const set = (key: string, packs: number) => {
    changing.packs.value = { ...changing.packs.value, [key]: Math.max(0, packs) };
  };
  return (
    <ul class="lines" aria-label="Lines of the order">
      {lines.map((line) => (
        <Line key={line.key} line={line} zone={zone} onPacks={(packs) => set(line.key, packs)} />
      ))}
      {free.map((line, place) => (
        <li key={`${line.words} ${place}`} class="row ends">
          <span>
            <strong>{line.words}</strong> {line.amount} <span class="soft">in words</span>
          </span>
          <Button
            onClick={() => {
              changing.free.value = free.filter((_, other) => other !== place);
            }}
          >
            Strike<span class="unseen">: {line.words}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}

interface LineProps {
  line: DraftLine;
  zone: string;
  onPacks: (packs: number) => void;
}

function Line({ line, zone, onPacks }: LineProps) {
  const { item, pack, packs, price } = line;
  const of = `${pack} ${item}`;
  return (
    <li class={`draft-line ${packs === 0 ? "struck" : ""}`}>
      <div class="row ends base">
        <strong>{item}</strong>
        <span class="figure">
          {price && money({ ...price.price, minor: packs * price.price.minor })}
        </span>
      </div>
      <div class="stepping">
        {packs === 0 ? (
          <>
            <span>Struck: nothing of it is ordered.</span>
            <Button onClick={() => onPacks(line.proposed || 1)}>
              Put it back<span class="unseen">: {of}</span>
            </Button>
          </>
        ) : (
          <>
            <Button onClick={() => onPacks(packs - 1)}>
              <span aria-hidden="true">−</span>
              <span class="unseen">One fewer: {of}</span>
            </Button>
            <span class="packs">
              <strong class="figure">{packs}</strong> × {pack}
            </span>
            <Button onClick={() => onPacks(packs + 1)}>
              <span aria-hidden="true">+</span>
              <span class="unseen">One more: {of}</span>
            </Button>
          </>
        )}
      </div>
      <span class="small">
        <Why line={line} zone={zone} />
      </span>
      {price && <PriceChanges row={price} zone={zone} />}
      {line.due?.at_risk && <strong>It may not come: this supplier sometimes fails.</strong>}
    </li>
  );
}

/** Why a line is there: what it is for, with all that it is made of one tap away; or that a person put it there. */
function Why({ line, zone }: { line: DraftLine; zone: string }) {
  const { due, ordered, packs, proposed } = line;
  const said = [
    ordered > 0 ? `${ordered} ordered already` : "",
    packs !== proposed && proposed > 0 ? `${proposed} would be enough` : "",
  ].filter(Boolean);
  return (
    <>
      {due ? (
        <Opens figure={forWhat(due, zone)} title={`${due.packs} × ${due.pack} ${due.item}`}>
          <Derived row={due} zone={zone} />
        </Opens>
      ) : (
        ordered === 0 && <span class="soft">Added by hand: no menu and no floor wants it.</span>
      )}
      {said.length > 0 && <span class="soft"> {said.join("; ")}</span>}
    </>
  );
}

function forWhat(due: PlanRow, zone: string): string {
  const by = due.wanted_by ? `, wanted by ${moment(due.wanted_by, zone, now.value)}` : "";
  return `${amount(due.net)} lacking for ${due.because.map(reason).join("; ")}${by}`;
}
