import { useReport } from "../../door/reports";
import type { QuestionRow } from "../../door/rows";
import { Link } from "../../parts/router";
import { Said } from "../../parts/said";
import { listed, many } from "../../words/amounts";

/** That a delivery came short or something was refused, at the chef's front door. */
export function CameShort() {
  const rows = useReport<QuestionRow>("questions").said.value?.rows ?? [];
  const lines = rows.flatMap((row) => row.short);
  if (lines.length === 0) return null;
  const dishes = lines.flatMap((line) => line.dishes);
  return (
    <Said kind="due">
      <strong>Did not come, or was refused: {listed(lines.map(({ item }) => item))}</strong>
      <span>
        {dishes.length > 0
          ? `${many(dishes.length, "dish", "dishes")} on chosen menus ${dishes.length === 1 ? "lacks" : "lack"} something.`
          : "Every menu that is chosen has enough all the same."}
      </span>
      <Link class="touch" to="/questions">
        What can replace it
      </Link>
    </Said>
  );
}
