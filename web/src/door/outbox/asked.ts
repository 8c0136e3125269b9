import type { AskedForRow } from "../rows";
import type { Entry } from "../store";
import { takenBack } from "./taken_back";

/**
 * What is asked for once these records are in: what was said here, less what was bought or taken back since. What
 * came to the back door may stand on hold, and only the house knows.
 */
export function askedShown(rows: AskedForRow[], fresh: Entry[]): AskedForRow[] {
  const back = takenBack(fresh);
  let shown = rows.filter(({ asked }) => !back.has(asked));
  for (const entry of fresh) {
    const { id, command } = entry;
    if (back.has(id)) continue;
    if (command.kind === "run_out" || command.kind === "ask_for") {
      shown = [...shown.filter(({ asked }) => asked !== id), asking(entry)];
    }
    if (command.kind === "shop_run") {
      const bought = new Set(command.body.lines?.map(({ item }) => item));
      shown = shown.filter(({ item_id }) => !item_id || !bought.has(item_id));
    }
    if (command.kind === "tick_off") {
      const done = shown.find(({ asked }) => asked === command.body.asked);
      shown = shown.filter((row) => row !== done && !isSameItem(row, done));
    }
  }
  return shown;
}

function isSameItem(row: AskedForRow, other: AskedForRow | undefined): boolean {
  return row.item_id !== null && row.item_id === other?.item_id;
}

/** What was said here, without what only the house knows: who wants it, and what the books have. */
function asking({ id, command, words }: Entry): AskedForRow {
  const isItem = command.kind === "run_out";
  const said = command.kind === "ask_for" ? command.body.words : isItem && command.body.note;
  return {
    asked: id,
    item: isItem ? words : null,
    item_id: isItem ? command.body.item : null,
    counted: null,
    words: said || null,
    person: command.person ?? "",
    at: command.at,
    on_hand: null,
    wanted_by: null,
    wanted_for: null,
    version: 1,
  };
}
