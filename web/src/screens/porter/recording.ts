import { type Signal, useSignal } from "@preact/signals";
import { type Answer, type Command, give, isGiven, newCommand, newId } from "../../door/command";
import type { Taken } from "../../door/photos/keeping";
import { attempted, type Problem } from "../../door/problem";
import { acceptsShort } from "./doubts";
import { missing, reasonOf, receiveBody } from "./line_body";
import type { Facts } from "./line_facts";
import type { LineState, Verdict } from "./line_state";
import { toldOf } from "./line_words";
import { note } from "./recorded";

interface Made {
  command: Command;
  batch: string;
}

export interface Recording {
  /** What is missing before anything can be sent, in words. */
  lacks: Signal<string | null>;
  problem: Signal<Problem | null>;
  busy: Signal<boolean>;
  /** The command once it is made: until it is answered it stays as it is, so that it is sent as the same bytes. */
  made: Signal<Made | null>;
  /** True where the line stands recorded; false where a person must look at it again. */
  record: (
    facts: Facts,
    state: LineState,
    verdict: Verdict,
    today: string,
    pictures: Taken[],
  ) => Promise<boolean>;
}

/** Recording one line: made once, given until it is answered, then noted on this device. */
export function useRecording(): Recording {
  const lacks = useSignal<string | null>(null);
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const made = useSignal<Made | null>(null);
  const record: Recording["record"] = async (facts, state, verdict, today, pictures) => {
    const mustSayWhy = acceptsShort(facts, state, today);
    const reason = reasonOf(facts, state, verdict, mustSayWhy);
    lacks.value = made.value ? null : missing(facts, state, verdict, reason, mustSayWhy);
    if (lacks.value) return false;
    busy.value = true;
    problem.value = made.value ? null : await kept(pictures);
    if (problem.value) {
      busy.value = false;
      return false;
    }
    made.value ??= newLine(facts, state, verdict, reason, pictures);
    const { command, batch } = made.value;
    const told = toldOf(facts, state, verdict, reason);
    const answer = await give(command, `${told.item}, ${told.words}`);
    const labels = isGiven(answer) && verdict !== "refuse" ? state.labels.value : [];
    const put = await putOn(labels, batch, told.item);
    busy.value = false;
    if (isGiven(answer) || answer.outcome === "kept") {
      note({
        ...told,
        more: [...told.more, ...put],
        command: command.id,
        batch,
        kept: keptOf(answer),
      });
      return true;
    }
    problem.value = answer.problem ?? null;
    if (answer.problem?.code !== "no_answer") made.value = null;
    return false;
  };
  return { lacks, problem, busy, made, record };
}

/** What hindered keeping the pictures on this device, which goes before the command that names them. */
async function kept(pictures: Taken[]): Promise<Problem | null> {
  if (pictures.length === 0) return null;
  return attempted(async () => (await import("../../door/photos/keeping")).keep(pictures));
}

function newLine(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
  reason: string,
  pictures: Taken[],
): Made {
  const batch = newId();
  const photos = pictures.map(({ id }) => id);
  const body = receiveBody(facts, state, verdict, reason, batch);
  return {
    batch,
    command: newCommand("receive", { ...body, ...(photos.length > 0 ? { photos } : {}) }),
  };
}

/**
 * Put numbered labels on what was taken in: by commands of their own, so that a number which another phone used
 * meanwhile does not keep the goods out of the books. Answers in words what became of each.
 */
async function putOn(labels: string[], batch: string, item: string): Promise<string[]> {
  const put: string[] = [];
  for (const label of labels) {
    const answer = await give(newCommand("bind_label", { batch, label }), `${label}, ${item}`);
    const why = answer.problem?.detail ?? "";
    put.push(isGiven(answer) ? `label ${label}` : `label ${label} not put on: ${why}`);
  }
  return put;
}

function keptOf({ problem }: Answer): string | null {
  return problem ? `${problem.detail} It is kept as it came, and a person is asked.` : null;
}
