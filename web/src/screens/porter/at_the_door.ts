import { signal } from "@preact/signals";
import { readCode } from "../../door/codes";
import { SEPARATOR } from "../../door/codes/separator";
import { problemOf } from "../../door/problem";
import type { CodeRow, ExpectedRow, ItemRow } from "../../door/rows";
import { go } from "../../parts/router";
import type { Answer } from "./code_answer";
import type { Heard } from "./heard";
import { carried, inHand } from "./in_hand";
import { type Key, keysOf, linesOf, pathOf } from "./keys";

/** What the last code or name at the door came to, where it opened no line by itself. */
export const answer = signal<Answer | null>(null);

/** A code for which nothing was found keeps its lot and date for the item that is found by its name. */
let unmatched: CodeRow | null = null;

/** A name is being typed; lot and date of a code that nothing carries stay for it. */
export function closeAnswer(): void {
  answer.value = null;
}

/** Another screen has opened: what the last code came to is of no use there. */
export function forgetAnswer(): void {
  answer.value = null;
  unmatched = null;
}

function open(key: Key, row: CodeRow | null, within: string | null): void {
  forgetAnswer();
  inHand.value = row ? carried(row, key.pack_id) : null;
  go(pathOf(key, within));
}

function openOrAsk(keys: Key[], row: CodeRow | null, within: string | null): boolean {
  const [only, ...more] = keys;
  if (!only) return false;
  if (more.length === 0) open(only, row, within);
  else answer.value = { kind: "which", keys, choose: (key) => open(key, row, within) };
  return true;
}

/**
 * Take in a code: open the line that it means among these orders, or say why none opens; answers which.
 * `within` is the order whose delivery is on the screen, null where all of them are.
 */
export async function takeCode(
  text: string,
  orders: ExpectedRow[],
  within: string | null,
): Promise<Heard> {
  forgetAnswer();
  try {
    const row = await readCode(text);
    const keys = keysOf(row.matches, orders);
    if (openOrAsk(keys, row, within)) {
      return { kind: keys.length > 1 ? "which" : "known", words: keys[0]?.item ?? "" };
    }
    const labelled = row.matches.find(({ kind }) => kind === "batch");
    // what came while the house was silent has no label of its own yet, and may have a numbered one
    const label = labelled?.label || row.read.label;
    if (labelled && label) {
      answer.value = { kind: "label", label, item: labelled.item };
      return { kind: "which", words: `${label}, ${labelled.item}` };
    }
    unmatched = row;
    answer.value = { kind: "nothing", text: shown(text), row };
    return { kind: "unknown", words: "Not known here" };
  } catch (error) {
    answer.value = { kind: "unreadable", text, problem: problemOf(error) };
    return { kind: "unknown", words: "Cannot be read" };
  }
}

/** Take in an item that was found by its name. */
export function takeItem(item: ItemRow, orders: ExpectedRow[], within: string | null): void {
  const keys = linesOf(item.id, orders);
  const none: Key = {
    order: null,
    line: null,
    item: item.item,
    item_id: item.id,
    pack_id: null,
    pack: null,
  };
  openOrAsk(keys.length > 0 ? keys : [none], unmatched, within);
}

/** A code as a person can read it: without the separators that no eye sees. */
function shown(text: string): string {
  return text.replaceAll(SEPARATOR, " ");
}
