import type { ItemRow } from "../../../door/rows";
import { listed } from "../../../words/amounts";

/** What of the allergens is known of an item; what is not known is not free (AL3). */
export function Allergens({ item }: { item: ItemRow }) {
  const rows: [string, string[]][] = [
    ["Contains", item.contains],
    ["May contain", item.may_contain],
    ["Not known", item.unknown],
  ];
  const told = rows.filter(([, what]) => what.length > 0);
  return (
    <section class="stack tight" aria-labelledby="allergens">
      <h2 id="allergens">Allergens</h2>
      {told.length === 0 && <p>None is known in it.</p>}
      <dl class="facts">
        {told.map(([name, what]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{listed(what)}</dd>
          </div>
        ))}
      </dl>
      <p class="soft small">
        Read the pack, too: a maker may have changed it. Not known is not free of it.
      </p>
    </section>
  );
}
