import { useSignal } from "@preact/signals";
import { readCode } from "../../door/codes";
import { type Problem, problemOf } from "../../door/problem";
import { Said, Wrong } from "../../parts/said";
import { useHandheld } from "./handheld";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

interface OtherCodeProps {
  facts: Facts;
  state: LineState;
}

const LEAVE = "Finish this line, or leave it.";
const OTHER = "Finish this line, or say below that something else came instead.";

/** A code that is scanned while a line is open: it fills in this line, or is told to be something else. */
export function OtherCode({ facts, state }: OtherCodeProps) {
  const said = useSignal("");
  const problem = useSignal<Problem | null>(null);
  const take = async (text: string) => {
    said.value = "";
    problem.value = null;
    try {
      const row = await readCode(text);
      const same = row.matches.some(({ item_id }) => item_id === facts.item.id);
      const other = row.matches.find(({ item_id }) => item_id !== facts.item.id);
      if (!same && !other) said.value = "Nothing in this house carries that code.";
      else if (!same && other) said.value = `That is ${other.item}. ${facts.line ? OTHER : LEAVE}`;
      else {
        if (row.read.lot) state.lot.value = row.read.lot;
        if (row.read.date_mark?.date) {
          state.kind.value = row.read.date_mark.kind;
          state.date.value = row.read.date_mark.date;
        }
        said.value =
          row.read.lot || row.read.date_mark
            ? "Filled in from the code."
            : `It is ${facts.item.item}.`;
      }
    } catch (error) {
      problem.value = problemOf(error);
    }
  };
  useHandheld((text) => void take(text));
  if (problem.value) return <Wrong problem={problem.value} />;
  return said.value ? <Said kind="due">{said.value}</Said> : null;
}
