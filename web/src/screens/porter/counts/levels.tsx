import { useSignal } from "@preact/signals";
import type { CountsRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";

type Level = CountsRow["levels"][number]["level"];

const LEVELS: Level[] = ["plenty", "low", "out"];

/** What nobody counts: one look and one tap. */
export function Levels({ row }: { row: CountsRow }) {
  const doing = useDoing(`levels ${row.area_id}`);
  // the copy of a phone without signal still says what was
  const said = useSignal<Record<string, Level>>({});
  if (row.levels.length === 0) return null;
  const set = async (item: string, name: string, level: Level) => {
    said.value = { ...said.value, [item]: level };
    await doing.act("set_level", { item, level }, `${name}, ${level}`);
  };
  return (
    <section class="stack tight" aria-labelledby="levels">
      <h2 id="levels">Nobody counts these: look</h2>
      <Done doing={doing} />
      <ul class="lines">
        {row.levels.map(({ item, item_id, level }) => (
          <li key={item_id} class="stack tight">
            <span>{item}</span>
            <fieldset class="three-keys">
              <legend class="unseen">{item}</legend>
              {LEVELS.map((each) => (
                <Button
                  key={each}
                  pressed={(said.value[item_id] ?? level) === each}
                  onClick={() => void set(item_id, item, each)}
                >
                  {each}
                </Button>
              ))}
            </fieldset>
          </li>
        ))}
      </ul>
    </section>
  );
}
