import { type Signal, useSignal } from "@preact/signals";
import { readCode } from "../../door/codes";
import { type Problem, problemOf } from "../../door/problem";
import type { CodeRow } from "../../door/rows";
import type { Heard } from "./heard";

export interface Hearing {
  /** What was wrong with the last code. */
  problem: Signal<Problem | null>;
  /** Has a code read, and answers what came of it; what cannot be read is the problem. */
  hear: (
    take: (code: CodeRow, text: string) => Heard | Promise<Heard>,
  ) => (text: string) => Promise<Heard>;
}

/** Hearing codes on a screen; `unread` is the word for one that cannot be read. */
export function useHearing(unread = "Cannot be read"): Hearing {
  const problem = useSignal<Problem | null>(null);
  const hear: Hearing["hear"] = (take) => async (text) => {
    problem.value = null;
    try {
      return await take(await readCode(text), text);
    } catch (error) {
      problem.value = problemOf(error);
      return { kind: "unknown", words: unread };
    }
  };
  return { problem, hear };
}

/** What of the house carries a code: the batch whose label it is, else the first thing. */
export function carriedBy({ matches }: CodeRow): CodeRow["matches"][number] | undefined {
  return matches.find(({ kind }) => kind === "batch") ?? matches[0];
}
