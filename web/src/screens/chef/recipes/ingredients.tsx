import type { RecipeLine, RecipeRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Link } from "../../../parts/router";
import { amount, isNothing } from "../../../words/amounts";
import { SubstitutesKey } from "./substitutes";
import { share } from "./writing";

/** What goes in: as written, for so many covers, and what is taken of it as bought. */
export function Ingredients({ row }: { row: RecipeRow }) {
  const unit = row.unit ?? (row.covers === "1" ? "cover" : "covers");
  const taken = new Map(row.needs.map(({ item_id, quantity }) => [item_id, quantity]));
  return (
    <section class="stack tight" aria-label="Ingredients">
      <h2>
        Ingredients, for {row.covers} {unit}
      </h2>
      <ul class="lines">
        {row.lines.map((line, place) => (
          <li key={`${line.item_id} ${place}`} class="stack tight">
            <span class="row ends base">
              <span>
                {line.made_by ? (
                  <Link class="touch" to={`/recipes/${line.made_by}`}>
                    {line.item}
                  </Link>
                ) : (
                  line.item
                )}
              </span>
              <strong class="figure">
                {line.counted ? amount(line.scaled) : line.amount || "to taste"}
              </strong>
            </span>
            <Beside line={line} taken={taken.get(line.item_id)} />
          </li>
        ))}
      </ul>
      {mayGive("set_substitutes") && row.lines.length > 0 && <SubstitutesKey lines={row.lines} />}
    </section>
  );
}

interface BesideProps {
  line: RecipeLine;
  taken: RecipeRow["needs"][number]["quantity"] | undefined;
}

function Beside({ line, taken }: BesideProps) {
  const isTrimmed = line.trimming_yield !== "1";
  const isMore = taken && !isNothing(taken) && amount(taken) !== amount(line.scaled);
  const said = [
    line.counted && line.amount !== amount(line.scaled) && line.amount && `written ${line.amount}`,
    line.fixed && "the same for any number",
    isTrimmed && `trimmed, ${share(line.trimming_yield)} of it is left`,
    isMore && `taken in all ${amount(taken)} as bought`,
  ].filter(Boolean);
  return (
    <>
      {said.length > 0 && <span class="soft">{said.join("; ")}</span>}
      {isTrimmed && line.handbook && (
        <span class="soft">
          {line.handbook.kept === line.trimming_yield
            ? "By the handbook"
            : "The kitchen's own; the handbook has"}{" "}
          {share(line.handbook.kept)} without {line.handbook.lost} ({line.handbook.source})
        </span>
      )}
      {line.substitutes.map((each) => (
        <span key={each.item} class="soft">
          Instead: {each.item}
          {each.ratio !== "1" && `, ${each.ratio} for 1`}
          {each.when && `; ${each.when}`}
        </span>
      ))}
    </>
  );
}
