import { useSignal } from "@preact/signals";
import { attempted, type Problem } from "../../../door/problem";
import { ask } from "../../../door/request";
import type { Wire } from "../../../door/wire";
import { ActBar, Button } from "../../../parts/button";
import { Choice } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Said, Wrong } from "../../../parts/said";
import { listed, many } from "../../../words/amounts";
import { Editor } from "./editor";
import { LongText } from "./text";
import { brought, type Document } from "./writing";

const NOBODY_SAYS = "";

/** A recipe from elsewhere: a saved page, its JSON-LD, or lines; nothing is fetched from the net. */
export function Bring() {
  const text = useSignal("");
  const system = useSignal(NOBODY_SAYS);
  const found = useSignal<Document[]>([]);
  const chosen = useSignal<Document | null>(null);
  const problem = useSignal<Problem | null>(null);
  const read = async () => {
    problem.value = await attempted(async () => {
      const body = { text: text.value, unit_system: system.value || null };
      const { recipes } = await ask<Wire["RecipesRead"]>("/api/recipes/read", body);
      found.value = recipes;
      chosen.value = recipes.length === 1 ? (recipes[0] ?? null) : null;
    });
  };
  if (chosen.value) return <Brought found={chosen.value} />;
  return (
    <>
      <Place title="Bring a recipe" under="Nothing is written before you have looked at every line">
        <label class="button takes">
          Choose a file: a page that was saved, or its JSON-LD
          <input
            type="file"
            accept=".html,.htm,.json,.jsonld,.txt,.csv,text/*,application/json,application/ld+json"
            onChange={({ currentTarget }) => {
              const file = currentTarget.files?.[0];
              void file?.text().then((content) => {
                text.value = content;
              });
            }}
          />
        </label>
        <LongText
          label="Or put it in here"
          value={text.value}
          rows={8}
          onInput={(typed) => {
            text.value = typed;
          }}
          hint="A page's source, JSON-LD, or the ingredients alone, a line each"
        />
        <Choice
          legend="Whose cups, pints and spoons it means"
          value={system}
          options={[
            { value: "us", label: "US" },
            { value: "metric", label: "metric" },
            { value: "imperial", label: "imperial" },
            { value: NOBODY_SAYS, label: "I do not know" },
          ]}
        />
        {problem.value && <Wrong problem={problem.value} />}
        {found.value.length > 1 && (
          <section class="stack tight" aria-label="What is in it">
            <h2>{many(found.value.length, "recipe")} are in it</h2>
            <ul class="lines">
              {found.value.map((each) => (
                <li key={JSON.stringify(each)}>
                  <button
                    class="whole"
                    type="button"
                    onClick={() => {
                      chosen.value = each;
                    }}
                  >
                    {each.name || "without a name"}, {many(each.lines.length, "line")}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )}
      </Place>
      <ActBar>
        <Button kind="main" disabled={text.value.trim() === ""} onClick={() => void read()}>
          Read it
        </Button>
      </ActBar>
    </>
  );
}

function Brought({ found }: { found: Document }) {
  return (
    <Editor title="Bring a recipe" begin={brought(found)} base={null}>
      {found.yields === null && found.yields_written && (
        <Said kind="due">
          <span>
            It says it makes <q>{found.yields_written}</q>: say for how many that is.
          </span>
        </Said>
      )}
      {found.not_believed.length > 0 && (
        <Said>
          <span>
            It calls itself {listed(found.not_believed)}. That is not believed: what is in it
            follows from your own items.
          </span>
        </Said>
      )}
    </Editor>
  );
}
