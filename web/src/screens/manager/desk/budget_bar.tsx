import type { BudgetRow } from "../../../door/rows";
import { many, money } from "../../../words/amounts";
import { dayName } from "../../../words/time";

interface BudgetBarProps {
  row: BudgetRow;
  /** What a draft would add to what is ordered, in minor units. */
  more: number;
}

const WIDE = 300;

/** What a week's deliveries cost against its budget, as a length: ordered, what a draft adds, and the limit. */
export function BudgetBar({ row, more }: BudgetBarProps) {
  const { currency, minor: ordered } = row.ordered;
  const of = (minor: number) => money({ minor, currency });
  const limit = row.budget?.minor ?? null;
  const all = Math.max(ordered + more, limit ?? 0, 1);
  const part = (minor: number) => (Math.max(0, minor) * WIDE) / all;
  return (
    <div class="stack tight">
      <p>
        Week of {dayName(row.week)}: <strong class="figure">{of(ordered)}</strong> ordered
        {more > 0 && <>, {of(more)} in this draft</>}
        {limit !== null && <> of {of(limit)}</>}
        {limit !== null && ordered + more > limit && (
          <strong>. {of(ordered + more - limit)} over the budget</strong>
        )}
        {row.unpriced > 0 && (
          <span class="soft"> ({many(row.unpriced, "line")} without a price)</span>
        )}
      </p>
      {limit !== null && (
        <svg
          class="budget"
          viewBox={`0 0 ${WIDE} 16`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <rect class="ordered" x="0" y="3" width={part(ordered)} height="10" />
          <rect class="more" x={part(ordered)} y="3" width={part(more)} height="10" />
          <line class="limit" x1={part(limit)} x2={part(limit)} y1="0" y2="16" />
        </svg>
      )}
    </div>
  );
}
