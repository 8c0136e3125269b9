import { type Signal, useSignal } from "@preact/signals";
import {
  type Answer,
  type BodyOf,
  type Command,
  give,
  type Kind,
  newCommand,
} from "../door/command";

/** Giving one decision from a screen: whether it is on its way, and how it was answered. */
export interface Giving {
  busy: Signal<boolean>;
  answer: Signal<Answer | null>;
  /** `words` say of what, for whoever looks at the records of this phone. */
  decide: <K extends Kind>(
    kind: K,
    body: BodyOf<K>,
    base?: number,
    words?: string,
  ) => Promise<Answer>;
}

/**
 * What was refused is decided anew; what was not answered is sent again as it was made, with the same id,
 * unless the person has decided otherwise meanwhile.
 */
export function useGiving(): Giving {
  const busy = useSignal(false);
  const answer = useSignal<Answer | null>(null);
  const unanswered = useSignal<Command | null>(null);
  const decide: Giving["decide"] = async (kind, body, base, words) => {
    const fresh: Command = newCommand(kind, body, base);
    const before = unanswered.value;
    const isSame = before && said(before) === said(fresh);
    const command = isSame ? before : fresh;
    busy.value = true;
    try {
      const given = await give(command, words);
      unanswered.value = given.problem?.status === 0 ? command : null;
      answer.value = given;
      return given;
    } finally {
      busy.value = false;
    }
  };
  return { busy, answer, decide };
}

function said({ kind, body, base }: Command): string {
  return JSON.stringify([kind, body, base]);
}
