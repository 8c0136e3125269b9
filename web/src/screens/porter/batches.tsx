import { now } from "../../door/clock";
import { written } from "../../door/house_days";
import type { StandingRow } from "../../door/outbox/batch_parts";
import type { StockRow } from "../../door/rows";
import { me } from "../../door/session";
import { standingAt } from "../../door/shelf_life";
import { DaysLeft } from "../../parts/days_left";
import { Opens } from "../../parts/opens";
import { Link } from "../../parts/router";
import { amount, isNothing } from "../../words/amounts";

interface BatchesProps {
  rows: StockRow[];
  zone: string;
  /** Whether each has its item's name: not where all are of one item. */
  named: boolean;
}

/** Batches as they stand: how long each has left, how much there is, where, of which lot. */
export function Batches({ rows, zone, named }: BatchesProps) {
  return (
    <ul class="lines batches" aria-label="Batches">
      {rows.map((row) => (
        <li key={row.batch}>
          <div class="stack tight">
            <span class="row ends base">
              <Link class="touch" to={toBatch(row)}>
                <strong>
                  {named && `${row.item}, `}
                  {row.label || "no label yet"}
                </strong>
              </Link>
              <OnHand row={row} />
            </span>
            <span class="small soft">{placeWords(row)}</span>
          </div>
          <div class="stack tight">
            <TimeLeft row={row} zone={zone} />
            <StandsSo row={row} />
          </div>
        </li>
      ))}
    </ul>
  );
}

/** Where a batch is opened: by its label, or by its id as long as it has none. */
export function toBatch(row: StockRow): string {
  return `/shelf/${encodeURIComponent(row.label || row.batch)}`;
}

function placeWords(row: StockRow): string {
  const state = row.state === "sealed" ? "" : row.state;
  return [row.area, row.lot && `lot ${row.lot}`, state].filter(Boolean).join(" · ");
}

/** What stands in the way of using it, with a word of its own for each. */
function StandsSo({ row: told }: { row: StockRow }) {
  const row = standingAt(told, written(now.value));
  return (
    <>
      {!row.usable && <strong class="state wrong">not to be used</strong>}
      {!isNothing(row.on_hold) && <strong>on hold</strong>}
      {row.usable && row.flagged && <strong>past its best: the chef decides</strong>}
    </>
  );
}

/** How long a batch has left: by its use-by or opened life, else by its best. */
export function TimeLeft({ row, zone }: { row: StandingRow; zone: string }) {
  if (row.isUntold) {
    return (
      <span class="small">
        This phone cannot reckon until when it keeps; the house says it once it has this record.
      </span>
    );
  }
  if (row.usable_until) {
    const kind = row.date_mark.kind === "use_by" ? "use_by" : "none";
    return <DaysLeft until={row.usable_until} kind={kind} zone={zone} />;
  }
  // what was frozen has its quality life, and the pack's mark does not say it
  const isMarked = row.date_mark.kind === "best_before";
  const kind = isMarked ? "best_before" : "at_its_best";
  return <DaysLeft until={row.good_until} kind={kind} zone={zone} />;
}

/** What physically stands there, opening to what it is made of (LG2). */
export function OnHand({ row }: { row: StockRow }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const parts: [string, StockRow["on_hand"]][] = [
    ["available", row.available],
    ["promised to meals", row.promised],
    ["on hold", row.on_hold],
    ["emergency meal", row.emergency],
  ];
  return (
    <Opens figure={amount(row.on_hand, mark)} title={`${row.item}, ${row.label}: on hand`}>
      <div class="scrolls">
        <table>
          <tbody>
            {parts.map(([name, quantity]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td class="figure">{amount(quantity, mark)}</td>
              </tr>
            ))}
            <tr>
              <th scope="row">on hand, together</th>
              <td class="figure">{amount(row.on_hand, mark)}</td>
            </tr>
          </tbody>
        </table>
      </div>
      <p class="soft">What physically stands there; a count of the shelf agrees.</p>
    </Opens>
  );
}
