import { type Signal, useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import {
  type Answer,
  type BodyOf,
  type Command,
  give,
  type Kind,
  newCommand,
} from "../door/command";

/** One decision of several that are given together. */
export interface Decision<K extends Kind> {
  /** What it is about, on this screen. */
  key: string;
  kind: K;
  body: BodyOf<K>;
  base?: number | undefined;
  /** For whoever looks at the records of this phone. */
  words: string;
}

/** Giving several decisions, one after the other: how far it is, and how each was answered. */
export interface GivingEach {
  /** How many of how many are given; null: none is on its way. */
  progress: Signal<{ done: number; of: number } | null>;
  answers: Signal<Record<string, Answer>>;
  decideEach: <K extends Kind>(decisions: Decision<K>[]) => Promise<void>;
}

/** What was not answered is sent again as it was made, with the same id, so that nothing is done twice. */
export function useGivingEach(): GivingEach {
  const progress = useSignal<{ done: number; of: number } | null>(null);
  const answers = useSignal<Record<string, Answer>>({});
  const unanswered = useRef(new Map<string, Command>());
  const decideEach: GivingEach["decideEach"] = async (decisions) => {
    try {
      for (const [done, { key, kind, body, base, words }] of decisions.entries()) {
        progress.value = { done, of: decisions.length };
        const said = JSON.stringify([kind, body, base]);
        const command = unanswered.current.get(said) ?? newCommand(kind, body, base);
        const given = await give(command, words);
        if (given.problem?.status === 0) unanswered.current.set(said, command);
        else unanswered.current.delete(said);
        answers.value = { ...answers.value, [key]: given };
      }
    } finally {
      progress.value = null;
    }
  };
  return { progress, answers, decideEach };
}
