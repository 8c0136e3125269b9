import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { problemOf } from "../../../door/problem";
import { ask } from "../../../door/request";
import type { Wire } from "../../../door/wire";
import { amount } from "../../../words/amounts";
import type { Draft, DraftLine } from "./writing";

type Understood = Wire["UnderstoodAmount"];

/** How long somebody pauses before the house is asked what the amounts come to, in milliseconds. */
const PAUSE = 250;

/** What the amount of each line comes to, by the line's key, while they are written. */
export function useUnderstood(draft: Draft): Signal<Map<number, Understood>> {
  const understood = useSignal(new Map<number, Understood>());
  const lines = draft.lines.filter(({ amount: written }) => written.trim() !== "");
  const body = {
    unit_system: draft.unitSystem,
    lines: lines.map((line) => ({ item: line.ingredient, amount: line.amount })),
  };
  const written = JSON.stringify(body);
  useEffect(() => {
    if (lines.length === 0) return;
    const gone = new AbortController();
    const soon = setTimeout(async () => {
      try {
        const told = await ask<Wire["AmountsUnderstood"]>("/api/amounts", body, gone.signal);
        understood.value = new Map(
          lines.flatMap(({ key }, place) => {
            const line = told.lines[place];
            return line ? [[key, line] as const] : [];
          }),
        );
      } catch (error) {
        // without an answer nothing stands beside the amounts; the house looks again at writing
        if (!gone.signal.aborted) problemOf(error);
      }
    }, PAUSE);
    return () => {
      clearTimeout(soon);
      gone.abort();
    };
  }, [written]);
  return understood;
}

/** `1 1/2 cups US = 355 ml`, or what is wrong with it. */
export function saidOf(
  line: DraftLine,
  system: Draft["unitSystem"],
  told: Understood | undefined,
): { said: string; wrong: string } {
  if (!told || line.amount.trim() === "") return { said: "", wrong: "" };
  if (told.problem && !told.measured) return { said: "", wrong: `${told.problem} ${told.todo}` };
  const parts = [line.amount.trim()];
  if (told.measured) parts.push(amount(told.measured));
  if (told.in_item && told.in_item.unit !== told.measured?.unit) parts.push(amount(told.in_item));
  const [first = "", ...more] = parts;
  const different = more.filter((part) => part !== first);
  const whose = /cup|pint|pt|spoon|tsp|tbsp|fl|quart|gallon|gill/i.test(first)
    ? ` ${SYSTEMS[system]}`
    : "";
  return {
    said: different.length > 0 ? `${first}${whose} = ${different.join(" = ")}` : "",
    wrong: told.problem ? `${told.problem} ${told.todo}` : "",
  };
}

/** Whose cups, pints and spoons. */
export const SYSTEMS: Record<Draft["unitSystem"], string> = {
  us: "US",
  metric: "metric",
  imperial: "imperial",
};
