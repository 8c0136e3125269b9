import { type Signal, useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import { attempted, type Problem } from "../../../door/problem";
import { me } from "../../../door/session";
import type { Doing } from "../../../parts/doing";
import type { Draft } from "../../../parts/draft";
import { type Bought, lacking, type Run, runBody, runWords } from "./bought";

/** What is being said of a shop run; it outlives the page. */
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

export interface RecordingRun {
  /** What is missing before it can be recorded, in words. */
  lacks: Signal<string | null>;
  /** What hindered keeping the pictures. */
  problem: Signal<Problem | null>;
  record: () => Promise<void>;
}

/** Recording one shop run: its pictures are kept on this device before the command that names them. */
export function useRecordingRun(run: RunState, doing: Doing, draft: Draft): RecordingRun {
  const lacks = useSignal<string | null>(null);
  const problem = useSignal<Problem | null>(null);
  const currency = me.value?.house.currency ?? "";
  const record = async () => {
    await draft.ready;
    const said = valuesOf(run);
    lacks.value = lacking(said, currency);
    if (lacks.value) return;
    problem.value = await kept(run.pictures.value);
    if (problem.value) return;
    const body = runBody(said, run.pictures.value, currency);
    const answer = await doing.act("shop_run", body, runWords(said, currency));
    // what was kept as it came is not recorded a second time either: a person is asked
    if (!isGiven(answer) && answer.outcome !== "kept") return;
    empty(run);
    draft.forget();
    scrollTo(0, 0);
  };
  return { lacks, problem, record };
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
