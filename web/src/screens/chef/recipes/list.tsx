import { signal } from "@preact/signals";
import { useReport } from "../../../door/reports";
import type { RecipeRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { money } from "../../../words/amounts";
import { found, type Kept } from "./found";

/** What the list is narrowed to; it stays while a recipe is looked at. */
const kind = signal<Kept>("dish");
const letters = signal("");

const KINDS = [
  ["dish", "dishes"],
  ["preparation", "preparations"],
  ["put_away", "put away"],
] as const;

/** Every recipe, dishes or preparations, narrowed by a few letters. */
export function RecipeList() {
  const report = useReport<RecipeRow>("recipes");
  return (
    <>
      <Place title="Recipes">
        <Shown report={report} what="Fetching the recipes">
          {(rows) => <List rows={rows} />}
        </Shown>
      </Place>
      {mayGive("write_recipe") && (
        <ActBar>
          <Link class="button main" to="/recipes/new">
            Write a recipe
          </Link>
        </ActBar>
      )}
    </>
  );
}

function List({ rows }: { rows: RecipeRow[] }) {
  const shown = found(rows, kind.value, letters.value);
  return (
    <>
      <fieldset class="keys">
        <legend class="unseen">Dishes or preparations</legend>
        {KINDS.map(([of, words]) => (
          <Button
            key={of}
            pressed={kind.value === of}
            onClick={() => {
              kind.value = of;
            }}
          >
            {words}
          </Button>
        ))}
      </fieldset>
      <Field label="Three letters of its name" value={letters} enterKeyHint="search" />
      {mayGive("write_recipe") && (
        <Link class="touch" to="/recipes/bring">
          Bring a recipe from elsewhere
        </Link>
      )}
      {shown.length === 0 && (
        <Nothing>
          {rows.length === 0
            ? "No recipe is written yet: write the first one."
            : kind.value === "put_away" && letters.value === ""
              ? "No recipe is put away."
              : "No recipe has these letters in its name."}
        </Nothing>
      )}
      <ul class="lines">
        {shown.map((row) => (
          <li key={row.id}>
            <Link to={`/recipes/${row.id}`}>
              <span class="row ends base">
                <strong>{row.recipe}</strong>
                <span class="figure nowrap">{costSaid(row)}</span>
              </span>
              {!row.approved && <span class="state">not approved yet</span>}
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}

function costSaid({ cost }: RecipeRow): string {
  if (!cost) return "";
  const about = cost.unknown.length > 0 ? "from " : "";
  return cost.per_cover
    ? `${about}${money(cost.per_cover)} a cover`
    : `${about}${money(cost.in_all)}`;
}
