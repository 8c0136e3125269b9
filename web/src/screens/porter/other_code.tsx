import { type Signal, useSignal } from "@preact/signals";
import { readCode } from "../../door/codes";
import { asPrinted } from "../../door/codes/label_numbers";
import { type Problem, problemOf } from "../../door/problem";
import { nowTold } from "../../door/reports";
import type { CodeRow, StockRow } from "../../door/rows";
import { Said, Wrong } from "../../parts/said";
import { useHandheld } from "./handheld";
import type { Heard } from "./heard";
import { NEVER_PRINTED, standsAgainst } from "./labels/stands_against";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

/** A code that is scanned while a line is open: it fills in this line, labels it, or is told to be something else. */
export interface OtherCodes {
  said: Signal<string>;
  problem: Signal<Problem | null>;
  take: (text: string) => Promise<Heard>;
}

const LEAVE = "Finish this line, or leave it.";
const OTHER = "Finish this line, or say below that something else came instead.";

export function useOtherCodes(facts: Facts, state: LineState): OtherCodes {
  const said = useSignal("");
  const problem = useSignal<Problem | null>(null);
  /** A number that was doubted: scanned once more it is put on. */
  const doubted = useSignal("");
  const label = async (number: string): Promise<Heard> => {
    const stock = (await nowTold<StockRow>("stock")).rows;
    const isSure = doubted.value === number;
    const against = standsAgainst(number, null, { stock, printed: facts.printed });
    doubted.value = number;
    if (against && !(against.code === NEVER_PRINTED && isSure)) {
      problem.value = against;
      return { kind: "unknown", words: "Not put on" };
    }
    if (!state.labels.value.includes(number)) state.labels.value = [...state.labels.value, number];
    return { kind: "known", words: number };
  };
  const take = async (text: string): Promise<Heard> => {
    said.value = "";
    problem.value = null;
    try {
      const row = await readCode(text);
      const number = asPrinted(row.read.label ?? "");
      if (number !== null) return await label(number);
      const { words, ...heard } = filledIn(row, facts, state);
      said.value = words;
      return { ...heard, words: heard.kind === "known" ? facts.item.item : "Another thing" };
    } catch (error) {
      problem.value = problemOf(error);
      return { kind: "unknown", words: "Cannot be read" };
    }
  };
  return { said, problem, take };
}

/** What a code of the goods says, written into the line where it is of its item. */
function filledIn({ read, matches }: CodeRow, facts: Facts, state: LineState): Heard {
  const same = matches.some(({ item_id }) => item_id === facts.item.id);
  const [other] = matches;
  if (!same && !other)
    return { kind: "unknown", words: "Nothing in this house carries that code." };
  if (!same && other) {
    return { kind: "unknown", words: `That is ${other.item}. ${facts.line ? OTHER : LEAVE}` };
  }
  if (read.lot) state.lot.value = read.lot;
  if (read.date_mark?.date) {
    state.kind.value = read.date_mark.kind;
    state.date.value = read.date_mark.date;
  }
  const says = read.lot || read.date_mark;
  return { kind: "known", words: says ? "Filled in from the code." : `It is ${facts.item.item}.` };
}

/** What came of such a code. */
export function OtherCode({ codes: { said, problem, take } }: { codes: OtherCodes }) {
  useHandheld((text) => void take(text));
  if (problem.value) return <Wrong problem={problem.value} />;
  return said.value ? <Said kind="due">{said.value}</Said> : null;
}
