import { signal } from "@preact/signals";
import { type BodyOf, isGiven } from "../../../door/command";
import type { RecipeRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { useGiving } from "../../../parts/giving";
import { Said, Wrong } from "../../../parts/said";

interface Written {
  name: string;
  /** As it was before; null: there was none. */
  before: BodyOf<"write_recipe"> | null;
}

/** What was written last in this tab, so that it can be written back. */
export const lastWritten = signal<Written | null>(null);

/** That a recipe was written, and the way back, which is writing it as it was. */
export function WrittenAnew({ row }: { row: RecipeRow }) {
  const { busy, answer, decide } = useGiving();
  const last = lastWritten.value;
  if (last?.name !== row.recipe)
    return answer.value?.problem ? <Wrong problem={answer.value.problem} /> : null;
  const back = async () => {
    if (!last.before) return;
    const given = await decide("write_recipe", last.before, row.version, row.recipe);
    if (isGiven(given)) lastWritten.value = null;
  };
  return (
    <>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      <Said kind="done">
        <strong>{last.before ? "Written anew." : "Written."}</strong>
        {last.before && (
          <Button disabled={busy.value} onClick={() => void back()}>
            Undo
          </Button>
        )}
      </Said>
    </>
  );
}
