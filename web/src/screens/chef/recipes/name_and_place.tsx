import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import type { RecipeRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Field } from "../../../parts/fields";
import { useGiving } from "../../../parts/giving";
import { Panel } from "../../../parts/panel";
import { Said, Wrong } from "../../../parts/said";

/** Another name for a recipe; putting it away, and taking it out again. Menus that have it keep it. */
export function NameAndPlace({ row }: { row: RecipeRow }) {
  const doing = useDoing(`/recipes/${row.id}`);
  const isNaming = useSignal(false);
  const { busy, answer, decide } = useGiving();
  const putAway = () =>
    void doing.act("put_away_recipe", { recipe: row.id, away: true }, row.recipe, row.version);
  const takeOut = () =>
    void decide("put_away_recipe", { recipe: row.id, away: false }, row.version);
  return (
    <>
      <Done doing={doing} />
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {row.put_away && (
        <Said kind="due">
          <strong>Put away: it is not offered. Menus on which it stands keep it.</strong>
          {mayGive("put_away_recipe") && (
            <Button disabled={busy.value} onClick={takeOut}>
              Take it out again
            </Button>
          )}
        </Said>
      )}
      {mayGive("rename_recipe") && (
        <div class="row">
          <Button
            onClick={() => {
              isNaming.value = true;
            }}
          >
            Another name
          </Button>
          {!row.put_away && (
            <Button disabled={doing.busy.value} onClick={putAway}>
              Put it away
            </Button>
          )}
        </div>
      )}
      {isNaming.value && (
        <Naming
          row={row}
          doing={doing}
          onClose={() => {
            isNaming.value = false;
          }}
        />
      )}
    </>
  );
}

interface NamingProps {
  row: RecipeRow;
  doing: ReturnType<typeof useDoing>;
  onClose: () => void;
}

function Naming({ row, doing, onClose }: NamingProps) {
  const name = useSignal(row.recipe);
  const isReady = name.value.trim() !== "" && name.value.trim() !== row.recipe;
  const rename = async () => {
    const body = { recipe: row.id, name: name.value.trim() };
    const given = await doing.act(
      "rename_recipe",
      body,
      `${row.recipe}, now ${body.name}`,
      row.version,
    );
    if (isGiven(given)) onClose();
  };
  return (
    <Panel title="Another name for this recipe" onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (isReady) void rename();
        }}
      >
        <Field
          label="Name"
          value={name}
          hint="What was served keeps the name it was served under."
        />
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Button kind="main" type="submit" disabled={!isReady || doing.busy.value}>
          Call it so
        </Button>
      </form>
    </Panel>
  );
}
