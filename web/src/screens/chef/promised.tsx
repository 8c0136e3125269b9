import { now } from "../../door/clock";
import type { CoverageRow, MenuRow } from "../../door/rows";
import { Said } from "../../parts/said";
import { many } from "../../words/amounts";
import { moment } from "../../words/time";
import { partSaid } from "./derived";
import { outcomeOf } from "./outcomes";

interface PromisedProps {
  row: MenuRow;
  coverage: CoverageRow[];
  zone: string;
  /** Whether it was confirmed on this screen just now. */
  fresh: boolean;
}

/** What a confirmed menu has been promised, item by item with its batches, and what is still to come. */
export function Promised({ row, coverage, zone, fresh }: PromisedProps) {
  if (coverage.length === 0) return null;
  const held = coverage.filter((each) => each.from.length > 0);
  const all = row.courses.flatMap(({ course, dishes }) =>
    dishes.map(({ dish, name, variant }) => ({
      ...{ course, dish, name, variant },
      ...{ portions: "", person: null },
    })),
  );
  const { buy, gone } = outcomeOf(coverage, all, now.value);
  const first = buy[0]?.mend_until;
  return (
    <>
      {fresh && (
        <Said kind="done">
          <strong>
            Confirmed for {row.covers}: {many(held.length, "item")} promised to it.
          </strong>
          {first && (
            <span>
              {many(buy.length, "item")} to be ordered, the first by{" "}
              {moment(first, zone, now.value)}.
            </span>
          )}
          {gone.length > 0 && <span>{many(gone.length, "item")} cannot be had any more.</span>}
        </Said>
      )}
      <details class="card" open={fresh}>
        <summary>What it was promised: {many(held.length, "item")}</summary>
        <ul class="lines">
          {held.map((each) => (
            <li key={each.dish + each.variant + each.item + each.for} class="row ends base">
              <span>
                {each.item} <span class="soft">for {each.for ?? each.dish}</span>
              </span>
              <span class="figure">{each.from.map(partSaid).join(", ")}</span>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
