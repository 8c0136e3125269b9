import { effect, type Signal, signal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import {
  type Answer,
  type BodyOf,
  type Command,
  give,
  isGiven,
  type Kind,
  newCommand,
} from "../door/command";
import type { Problem } from "../door/problem";
import { me } from "../door/session";
import { recordWords } from "../words/records";

/** What somebody did on this device, so that it can be told and taken back. */
export interface Deed {
  /** The command's own id. */
  command: string;
  /** The screen it was done on, or the batch, the area: whatever it is told beside. */
  place: string;
  /** `Moved: Butter B-0021, 250 g, to the Cold room`. */
  words: string;
  outcome: Answer["outcome"];
  /** What the house said against it, where it was written down without effect. */
  problem: Problem | null;
  /** How it was taken back; null as long as it stands. */
  undone: Answer["outcome"] | null;
}

export interface Doing {
  place: string;
  busy: Signal<boolean>;
  /** What the last one was refused for, or its taking back. */
  problem: Signal<Problem | null>;
  /** Do one thing: `words` say of what, how much, where to; `base` is the version it is decided on. */
  act: <K extends Kind>(kind: K, body: BodyOf<K>, words: string, base?: number) => Promise<Answer>;
  undo: (deed: Deed) => Promise<Answer>;
}

/** The answer to a command of ours, which has an id. */
type Given = Answer & { id: string };

const MOST = 20;

/** What this person did on this device in this tab, newest first. */
export const deeds = signal<Deed[]>([]);

let whose = "";

effect(() => {
  const person = me.value?.person.id ?? "";
  if (person === whose) return;
  whose = person;
  const kept = person && sessionStorage.getItem(keyOf(person));
  deeds.value = kept ? (JSON.parse(kept) as Deed[]) : [];
});

function keyOf(person: string): string {
  return `deeds ${person}`;
}

function keep(all: Deed[]): void {
  deeds.value = all.slice(0, MOST);
  if (whose) sessionStorage.setItem(keyOf(whose), JSON.stringify(deeds.value));
}

/** Doing one thing after another at a place, for as long as a screen shows it. */
export function useDoing(place: string): Doing {
  return useMemo(() => doingAt(place), [place]);
}

/**
 * Doing one thing after another at a place. What was not answered is given again as it was made, with the same
 * id, unless something else is done meanwhile.
 */
export function doingAt(place: string): Doing {
  const busy = signal(false);
  const problem = signal<Problem | null>(null);
  let unanswered: Command | null = null;
  const given = async (fresh: Command, words: string): Promise<Given> => {
    const isSame = unanswered && said(unanswered) === said(fresh);
    const command = unanswered && isSame ? unanswered : fresh;
    busy.value = true;
    problem.value = null;
    try {
      const answer = await give(command, words);
      unanswered = answer.problem?.status === 0 ? command : null;
      problem.value = isTold(answer) ? null : (answer.problem ?? null);
      return { ...answer, id: command.id };
    } finally {
      busy.value = false;
    }
  };
  const act: Doing["act"] = async (kind, body, words, base) => {
    const answer = await given(newCommand(kind, body, base), words);
    if (isTold(answer)) {
      keep([deedOf(answer, place, recordWords(kind, words)), ...deeds.value]);
    }
    return answer;
  };
  const undo: Doing["undo"] = async (deed) => {
    const body = { command: deed.command, reason: "recorded by mistake" };
    const answer = await given(newCommand("correct", body), deed.words);
    if (isGiven(answer)) {
      keep(deeds.value.map((each) => (each === deed ? { ...deed, undone: answer.outcome } : each)));
    }
    return answer;
  };
  return { place, busy, problem, act, undo };
}

/** What takes a listed line back: what was done here, or what another has done. */
export function undoOf(command: string, place: string, words: string): Deed {
  const own = deeds.value.find((deed) => deed.command === command);
  return own ?? { command, place, words, outcome: "applied", problem: null, undone: null };
}

/** Whether it stands, or is written down at least. */
function isTold(answer: Answer): boolean {
  return isGiven(answer) || answer.outcome === "kept";
}

function deedOf({ id, outcome, problem }: Given, place: string, words: string): Deed {
  return { command: id, place, words, outcome, problem: problem ?? null, undone: null };
}

function said({ kind, body }: Command): string {
  // the new batch that a motion makes has another id each time it is thought of
  const { child: _, ...rest } = body as Record<string, unknown>;
  return JSON.stringify([kind, rest]);
}
