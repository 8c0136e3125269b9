import { type Signal, useSignal } from "@preact/signals";
import { type Answer, type Command, give, isGiven, newCommand, newId } from "../../door/command";
import type { Problem } from "../../door/problem";
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
  record: (facts: Facts, state: LineState, verdict: Verdict, today: string) => Promise<boolean>;
}

/** Recording one line: made once, given until it is answered, then noted on this device. */
export function useRecording(): Recording {
  const lacks = useSignal<string | null>(null);
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const made = useSignal<Made | null>(null);
  const record: Recording["record"] = async (facts, state, verdict, today) => {
    const mustSayWhy = acceptsShort(facts, state, today);
    const reason = reasonOf(facts, state, verdict, mustSayWhy);
    lacks.value = made.value ? null : missing(facts, state, verdict, reason, mustSayWhy);
    if (lacks.value) return false;
    made.value ??= newLine(facts, state, verdict, reason);
    const { command, batch } = made.value;
    problem.value = null;
    busy.value = true;
    const told = toldOf(facts, state, verdict, reason);
    const answer = await give(command, `${told.item}, ${told.words}`);
    busy.value = false;
    if (isGiven(answer) || answer.outcome === "kept") {
      note({
        ...told,
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

function newLine(facts: Facts, state: LineState, verdict: Verdict, reason: string): Made {
  const batch = newId();
  return {
    batch,
    command: newCommand("receive", receiveBody(facts, state, verdict, reason, batch)),
  };
}

function keptOf({ problem }: Answer): string | null {
  return problem ? `${problem.detail} It is kept as it came, and a person is asked.` : null;
}
