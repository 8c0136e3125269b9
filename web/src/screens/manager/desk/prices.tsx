import "../../../look/manager.css";
import { useSignal } from "@preact/signals";
import { useReport } from "../../../door/reports";
import type { PriceRow } from "../../../door/rows";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { money } from "../../../words/amounts";
import { answersTo } from "../../../words/find";
import { History, PriceChanges } from "./price_changes";

/** What every pack costs; those that have become dearer or cheaper first, each with its steps. */
export function Prices() {
  const report = useReport<PriceRow>("prices");
  const typed = useSignal("");
  return (
    <Place title="Prices" under="What each pack costs, and how that changed">
      <Shown report={report} what="Looking at the prices">
        {(rows, zone) => {
          const changed = rows
            .filter(({ changes }) => changes.length > 0)
            .sort((one, other) => lastOf(other).localeCompare(lastOf(one)));
          const found = rows.filter(
            ({ item, supplier }) =>
              answersTo(item, typed.value) !== null || answersTo(supplier, typed.value) !== null,
          );
          return (
            <div class="stack narrow">
              <section class="stack" aria-label="What has changed">
                <h2>What has changed</h2>
                {changed.length === 0 && <Nothing>No price has changed yet.</Nothing>}
                {changed.map((row) => (
                  <article key={row.pack_id} class="card stack" aria-label={row.item}>
                    <h3>
                      {row.item}, {row.pack}
                    </h3>
                    <span class="soft">{row.supplier}</span>
                    <PriceChanges row={row} zone={zone} />
                    <History row={row} zone={zone} />
                  </article>
                ))}
              </section>
              <Field label="Find an item or a supplier" value={typed} hint="A few letters" />
              <ul class="lines" aria-label="Found">
                {found.map((row) => (
                  <li key={row.pack_id} class="row ends base">
                    <span>
                      <strong>{row.item}</strong>, {row.pack}{" "}
                      <span class="soft small">{row.supplier}</span>
                    </span>
                    <span class="figure">{money(row.price)}</span>
                  </li>
                ))}
              </ul>
            </div>
          );
        }}
      </Shown>
    </Place>
  );
}

function lastOf(row: PriceRow): string {
  return row.changes.at(-1)?.at ?? "";
}
