import type { Signal } from "@preact/signals";
import type { Problem } from "../../../door/problem";
import type { ItemRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { plain } from "../../../words/find";
import { NewItem } from "./new_item";
import { ReadBeside } from "./read_beside";
import { ItemNames, Text, Tick } from "./text";
import { saidOf, useUnderstood } from "./understood";
import { type Draft, type DraftLine, emptyLine, faultsOf, filled } from "./writing";

const ITEMS = "recipe-items";

interface EditorLinesProps {
  draft: Signal<Draft>;
  items: ItemRow[];
  problem: Problem | null;
}

/** The lines, each with what its amount is understood as beside it. */
export function EditorLines({ draft, items, problem }: EditorLinesProps) {
  const understood = useUnderstood(draft.value);
  const { lines } = draft.value;
  const put = (next: DraftLine[]) => {
    draft.value = { ...draft.value, lines: next };
  };
  const change = (line: DraftLine, part: Partial<DraftLine>) =>
    put(lines.map((each) => (each.key === line.key ? { ...each, ...part } : each)));
  const counted = filled(draft.value);
  return (
    <section class="stack" aria-label="Ingredients">
      <h2>Ingredients</h2>
      <ItemNames id={ITEMS} items={[...items, ...draft.value.items]} />
      <ol class="lines recipe-lines">
        {lines.map((line, place) => (
          <EditorLine
            key={line.key}
            line={line}
            number={place + 1}
            draft={draft}
            items={items}
            said={saidOf(line, draft.value.unitSystem, understood.value.get(line.key))}
            faults={faultsOf(problem, "ingredients", counted.indexOf(line) + 1)}
            onChange={(part) => change(line, part)}
            onAway={() => put(lines.filter((each) => each.key !== line.key))}
          />
        ))}
      </ol>
      <div>
        <Button onClick={() => put([...lines, emptyLine()])}>One more line</Button>
      </div>
    </section>
  );
}

interface EditorLineProps {
  line: DraftLine;
  number: number;
  draft: Signal<Draft>;
  items: ItemRow[];
  said: { said: string; wrong: string };
  faults: ReturnType<typeof faultsOf>;
  onChange: (part: Partial<DraftLine>) => void;
  onAway: () => void;
}

function EditorLine(props: EditorLineProps) {
  const { line, number, draft, items, said, faults, onChange, onAway } = props;
  const wrong = (column: string) => {
    const fault = faults.find((each) => each.column === column);
    return fault && `${fault.problem} ${fault.todo}`;
  };
  return (
    <li class="stack tight">
      {line.read && <ReadBeside line={line} onChange={onChange} />}
      <div class="recipe-line">
        <Text
          label={`Amount, line ${number}`}
          value={line.amount}
          onInput={(amount) => onChange({ amount })}
          hint={said.said || undefined}
          wrong={wrong("amount") ?? (said.wrong || undefined)}
        />
        <Text
          label={`Ingredient, line ${number}`}
          value={line.ingredient}
          list={ITEMS}
          onInput={(ingredient) => onChange({ ingredient })}
          wrong={isKnown(line, items, draft.value) ? undefined : wrong("ingredient")}
        />
      </div>
      {!isKnown(line, items, draft.value) && (
        <NewItem name={line.ingredient.trim()} draft={draft} />
      )}
      <div class="line-more">
        <details open={line.trimmed || line.fixed}>
          <summary class="touch">Trimmed, or fixed</summary>
          <div class="stack tight">
            <Tick
              label="The amount is of what is left once it is trimmed"
              checked={line.trimmed}
              onTick={(trimmed) => onChange({ trimmed })}
            />
            {line.trimmed && (
              <Text
                label={`How much of it is left, line ${number}`}
                value={line.trimmingYield}
                onInput={(trimmingYield) => onChange({ trimmingYield })}
                hint="such as 80 %; left empty, the handbook's"
                wrong={wrong("trimming_yield")}
              />
            )}
            <Tick
              label="The same for any number, such as oil for frying"
              checked={line.fixed}
              onTick={(fixed) => onChange({ fixed })}
            />
          </div>
        </details>
        <Button kind="quiet" onClick={onAway}>
          Take line {number} out
        </Button>
      </div>
    </li>
  );
}

/** Whether an ingredient is an item of the house, or one that is entered with the recipe. */
function isKnown(line: DraftLine, items: ItemRow[], draft: Draft): boolean {
  const name = plain(line.ingredient);
  return name === "" || [...items, ...draft.items].some(({ item }) => plain(item) === name);
}
