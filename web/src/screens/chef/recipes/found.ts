import type { RecipeRow } from "../../../door/rows";
import { answersTo } from "../../../words/find";

/** What the list of recipes shows: dishes or preparations that are offered, or what is put away. */
export type Kept = RecipeRow["kind"] | "put_away";

/** The recipes of a kind that a few letters find, those that begin so first. */
export function found(rows: RecipeRow[], of: Kept, typed: string): RecipeRow[] {
  const ofKind = rows.filter((row) => (row.put_away ? "put_away" : row.kind) === of);
  if (typed.trim() === "") return ofKind;
  return ofKind
    .map((row) => ({ row, rank: answersTo(row.recipe, typed) }))
    .filter(({ rank }) => rank !== null)
    .sort((a, b) => (a.rank ?? 0) - (b.rank ?? 0))
    .map(({ row }) => row);
}
