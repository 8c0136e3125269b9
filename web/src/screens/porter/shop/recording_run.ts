import { type Signal, useSignal } from "@preact/signals";
import { type Command, give, isGiven, newCommand } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import { attempted, type Problem } from "../../../door/problem";
import { me } from "../../../door/session";
import { type Bought, lacking, type Run, runBody, runWords } from "./bought";

/** What is being said of a shop run; the draft outlives the page, its pictures do not. */
export interface RunState {
  draft: { [Part in keyof Run]: Signal<Run[Part]> };
  pictures: Signal<Taken[]>;
}

export function useRun(): RunState {
  const draft = {
    shop: useSignal(""),
    total: useSignal(""),
    lines: useSignal<Bought[]>([]),
    others: useSignal<string[]>([]),
  };
  return { draft, pictures: useSignal<Taken[]>([]) };
}

/** A shop run that stands recorded. */
export interface Recorded {
  command: string;
  words: string;
}

export interface RecordingRun {
  lacks: Signal<string | null>;
  problem: Signal<Problem | null>;
  busy: Signal<boolean>;
  /** The command once it is made: until it is answered it is sent again as the same bytes. */
  made: Signal<Command | null>;
  done: Signal<Recorded | null>;
  record: () => Promise<void>;
}

/** Recording one shop run: its pictures are kept on this device before the command that names them. */
export function useRecordingRun(run: RunState, forgetDraft: () => void): RecordingRun {
  const lacks = useSignal<string | null>(null);
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const made = useSignal<Command | null>(null);
  const done = useSignal<Recorded | null>(null);
  const currency = me.value?.house.currency ?? "";
  const record = async () => {
    const said = valuesOf(run);
    lacks.value = lacking(said, currency);
    if (lacks.value) return;
    busy.value = true;
    problem.value = made.value ? null : await kept(run.pictures.value);
    if (!problem.value) {
      made.value ??= newCommand("shop_run", runBody(said, run.pictures.value, currency));
      const command = made.value;
      const words = runWords(said, currency);
      const answer = await give(command, words);
      problem.value = answer.problem ?? null;
      if (answer.problem?.code !== "no_answer") made.value = null;
      if (isGiven(answer)) done.value = { command: command.id, words };
      // what was kept as it came is not recorded a second time either: a person is asked
      if (isGiven(answer) || answer.outcome === "kept") {
        empty(run);
        scrollTo(0, 0);
        forgetDraft();
      }
    }
    busy.value = false;
  };
  return { lacks, problem, busy, made, done, record };
}

function valuesOf({ draft }: RunState): Run {
  const { shop, total, lines, others } = draft;
  return { shop: shop.value, total: total.value, lines: lines.value, others: others.value };
}

function empty({ draft, pictures }: RunState): void {
  draft.shop.value = "";
  draft.total.value = "";
  draft.lines.value = [];
  draft.others.value = [];
  pictures.value = [];
}

/** What hindered keeping the pictures on this device. */
async function kept(pictures: Taken[]): Promise<Problem | null> {
  if (pictures.length === 0) return null;
  return attempted(async () => (await import("../../../door/photos/keeping")).keep(pictures));
}
