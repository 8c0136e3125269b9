import type { PriceRow } from "../../../door/rows";
import { Opens } from "../../../parts/opens";
import { money } from "../../../words/amounts";
import { dayName, dayOf } from "../../../words/time";

const WIDE = 300;
const HIGH = 90;

/** That a pack has become dearer or cheaper, since when; what it cost before is one tap away. */
export function PriceChanges({ row, zone }: { row: PriceRow; zone: string }) {
  const last = row.changes.at(-1);
  if (!last) return null;
  const word = last.price.minor > last.before.minor ? "Dearer" : "Cheaper";
  const by = row.dearer_permille === null ? "" : ` by ${Math.abs(row.dearer_permille) / 10} %`;
  const since = dayName(dayOf(last.at, zone));
  return (
    <span class="small">
      <Opens
        figure={`${word}${by} since ${since}: ${money(last.before)} before`}
        title={`${row.pack} ${row.item}`}
      >
        <History row={row} zone={zone} />
      </Opens>
    </span>
  );
}

/** Every price a pack has had, as steps and in words. */
export function History({ row, zone }: { row: PriceRow; zone: string }) {
  const prices = [...row.changes.map(({ before }) => before.minor), row.price.minor];
  const most = Math.max(...prices, 1);
  const wide = WIDE / prices.length;
  const y = (minor: number) => HIGH - 6 - (minor * (HIGH - 16)) / most;
  const path = prices
    .map((minor, at) => `${at === 0 ? "M" : "L"}${at * wide} ${y(minor)}H${(at + 1) * wide}`)
    .join("");
  return (
    <div class="stack">
      <svg class="prices" viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
        <line x1="0" x2={WIDE} y1={HIGH - 6} y2={HIGH - 6} />
        <path d={path} />
      </svg>
      <ul class="lines">
        {row.changes.map((each) => (
          <li key={each.at} class="row ends base">
            <span>Until {dayName(dayOf(each.at, zone))}</span>
            <span class="figure">{money(each.before)}</span>
          </li>
        ))}
        <li class="row ends base">
          <strong>Now</strong>
          <strong class="figure">{money(row.price)}</strong>
        </li>
      </ul>
    </div>
  );
}
