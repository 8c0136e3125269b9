import type { CoverageRow } from "../../door/rows";
import { amount, isNothing } from "../../words/amounts";
import { Derived } from "./derived";
import { StandingMark } from "./state_mark";

/** Every item of a dish; each opens to how its figure comes about. */
export function ItemsOf({ rows, zone }: { rows: CoverageRow[]; zone: string }) {
  return (
    <ul class="lines">
      {rows.map((row) => (
        <li key={row.item + row.for}>
          <details>
            <summary class="row ends">
              <span>
                <StandingMark stands={isNothing(row.short) ? "covered" : "buy"} /> {row.item}
                {row.for && <span class="soft"> for {row.for}</span>}
              </span>
              <span class="figure">
                {amount(row.need)}
                {!isNothing(row.short) && <span>, {amount(row.short)} short</span>}
              </span>
            </summary>
            <Derived row={row} zone={zone} />
          </details>
        </li>
      ))}
    </ul>
  );
}
