import "../../../look/menus.css";
import { type Signal, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { isGiven } from "../../../door/command";
import type { Problem } from "../../../door/problem";
import { useReport } from "../../../door/reports";
import type { HouseRow, ItemRow, RecipeRow } from "../../../door/rows";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { useGiving } from "../../../parts/giving";
import { useInHand } from "../../../parts/in_hand";
import { go } from "../../../parts/router";
import { Said, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { EditorLines } from "./editor_lines";
import { EditorVariants } from "./editor_variants";
import { Keeping } from "./keeping";
import { PictureOf, usePicture } from "./picture_of";
import { LongText, Pick, Text } from "./text";
import { SYSTEMS } from "./understood";
import { again, bodyOf, type Draft, empty, faultsOf, isReady, undecided, wrongIn } from "./writing";
import { lastWritten } from "./written";

/** A recipe that the house does not have yet. */
export function NewRecipe() {
  const house = useReport<HouseRow>("house");
  return (
    <Shown report={house} what="Fetching the house">
      {(rows) => <Editor title="Write a recipe" begin={empty(systemOf(rows[0]))} base={null} />}
    </Shown>
  );
}

/** The house's own cups and pints, as long as nobody says otherwise. */
export function systemOf(house: HouseRow | undefined): Draft["unitSystem"] {
  return (house?.unit_system ?? "metric") as Draft["unitSystem"];
}

/** A recipe that is written anew, on the version that was looked at. */
export function ChangeRecipe({ recipe }: { recipe: string }) {
  const report = useReport<RecipeRow>("recipes", { recipe });
  return (
    <Shown report={report} what="Fetching the recipe">
      {(rows) =>
        rows.map((row) => (
          <Editor key={row.id} title={`Change ${row.recipe}`} begin={again(row)} base={row} />
        ))
      }
    </Shown>
  );
}

interface EditorProps {
  title: string;
  begin: Draft;
  /** The recipe that is written anew; null: a new one. */
  base: RecipeRow | null;
  /** What is to be known of where it came from. */
  children?: ComponentChildren;
}

/** A recipe while it is written; whatever a document brought waits here for a person, line by line. */
export function Editor({ title, begin, base, children }: EditorProps) {
  useInHand();
  const draft = useSignal(begin);
  // the version that was looked at, whatever the house says meanwhile
  const stood = useSignal(base).value;
  const { busy, answer, decide } = useGiving();
  const picture = usePicture();
  const items = useReport<ItemRow>("items").said.value?.rows ?? [];
  const problem = answer.value?.problem ?? picture.problem.value;
  const done = answer.value !== null && isGiven(answer.value);
  const waits = undecided(draft.value).length;
  const change = (part: Partial<Draft>) => {
    draft.value = { ...draft.value, ...part };
  };
  const write = async () => {
    const id = await picture.keep();
    if (id === undefined) return;
    if (id !== null) change({ picture: id });
    const body = bodyOf(draft.value);
    const given = await decide("write_recipe", body, stood?.version, body.recipe);
    if (isGiven(given)) lastWritten.value = { name: body.recipe, before: stood && asItWas(stood) };
  };
  useEffect(() => {
    if (done) go(`/recipes/${encodeURIComponent(draft.value.recipe.trim())}`);
  }, [done]);
  return (
    <>
      <Place title={title}>
        {children}
        <Head draft={draft.value} change={change} isNew={base === null} problem={problem} />
        <EditorLines draft={draft} items={items} problem={problem} />
        <LongText
          label="Method"
          value={draft.value.method}
          rows={8}
          onInput={(method) => change({ method })}
        />
        <PictureOf
          picture={picture}
          kept={draft.value.picture}
          onAway={() => change({ picture: null })}
        />
        <EditorVariants draft={draft} items={items} problem={problem} />
        <Keeping draft={draft.value} change={change} problem={problem} />
      </Place>
      <ActBar>
        <div class="changes">
          {problem && <Wrong problem={problem} />}
          {problem && <OtherFaults problem={problem} />}
          {waits > 0 && (
            <Said kind="due">
              <strong>{many(waits, "line waits", "lines wait")} for you to decide.</strong>
            </Said>
          )}
          <Button
            kind="main"
            disabled={busy.value || done || !isReady(draft.value)}
            onClick={() => void write()}
          >
            {words(draft, base)}
          </Button>
        </div>
      </ActBar>
    </>
  );
}

function asItWas(base: RecipeRow): ReturnType<typeof bodyOf> {
  return { ...bodyOf(again(base)), approved: base.approved };
}

function words(draft: Signal<Draft>, base: RecipeRow | null): string {
  if (isReady(draft.value)) return base ? "Write it anew" : "Write the recipe";
  if (undecided(draft.value).length > 0) return "Decide every line first";
  return "Name, for how many, and one line first";
}

/** The faults of the recipe itself that stand beside no field. */
function OtherFaults({ problem }: { problem: Problem }) {
  const beside = ["recipe", "yield", "lead", "life_days", "season_from", "season_to", "area"];
  const others = faultsOf(problem, "recipes", 1).filter(({ column }) => !beside.includes(column));
  return (
    <>
      {others.map((fault) => (
        <p key={JSON.stringify(fault)}>
          {fault.problem} {fault.todo}
        </p>
      ))}
    </>
  );
}

interface HeadProps {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  isNew: boolean;
  problem: Problem | null;
}

function Head({ draft, change, isNew, problem }: HeadProps) {
  const wrong = (column: string) => wrongIn(problem, column);
  return (
    <div class="stack">
      {isNew && (
        <>
          <Text
            label="Name"
            value={draft.recipe}
            onInput={(recipe) => change({ recipe })}
            wrong={wrong("recipe")}
          />
          <Pick
            label="What it is"
            value={draft.kind}
            options={[
              ["dish", "a dish, for a menu"],
              ["preparation", "a preparation, that is kept"],
            ]}
            onPick={(kind) => change({ kind: kind as Draft["kind"] })}
          />
        </>
      )}
      <div class="pair from-top">
        <Text
          label={draft.kind === "dish" ? "For how many" : "How much it makes"}
          value={draft.yields}
          onInput={(yields) => change({ yields })}
          hint={draft.kind === "dish" ? "such as 4" : "such as 2 l"}
          wrong={wrong("yield")}
        />
        <Pick
          label="Whose cups, pints and spoons"
          value={draft.unitSystem}
          options={Object.entries(SYSTEMS)}
          onPick={(unitSystem) => change({ unitSystem: unitSystem as Draft["unitSystem"] })}
        />
      </div>
    </div>
  );
}
