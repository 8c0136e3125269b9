import type { RecipeRow } from "../../../door/rows";
import { Opens } from "../../../parts/opens";
import { amount, listed, money } from "../../../words/amounts";

/** What a cover costs, which opens to what it is made of. */
export function Cost({ row }: { row: RecipeRow }) {
  const { cost } = row;
  if (!cost) return null;
  const each = cost.per_cover;
  return (
    <section class="stack tight" aria-label="Cost">
      <h2>Cost</h2>
      <p>
        <Opens
          figure={each ? `${money(each)} a cover` : `${money(cost.in_all)} in all`}
          title={`What ${row.recipe} costs`}
        >
          <ul class="lines">
            {cost.lines.map((line) => (
              <li key={line.item} class="stack tight">
                <span class="row ends base">
                  <span>
                    {amount(line.quantity)} {line.item}
                  </span>
                  <span class="figure">{line.cost ? money(line.cost) : "no price"}</span>
                </span>
                <span class="soft">
                  {line.pack &&
                    `${line.pack.pack} of ${line.pack.supplier}: ${money(line.pack.price)} for ${amount(line.pack.quantity)}`}
                  {line.made_by && "made here, at what its recipe costs"}
                </span>
              </li>
            ))}
          </ul>
          <p>
            Together {money(cost.in_all)}
            {each && ` for ${row.covers}, so ${money(each)} a cover`}. Reckoned exactly and rounded
            once, at the pack that has most in it for its price.
          </p>
        </Opens>
      </p>
      {cost.unknown.length > 0 && (
        <p class="soft">Without a price, and so not in it: {listed(cost.unknown)}.</p>
      )}
    </section>
  );
}
