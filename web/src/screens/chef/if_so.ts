import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Problem, problemOf } from "../../door/problem";
import type { Report } from "../../door/reports";
import { ask } from "../../door/request";

/** What the house says of something that is only thought of, as far as it has said. */
export interface IfSo<Row> {
  /** What was last said, also while the next is being asked; null: nothing yet. */
  rows: Signal<Row[] | null>;
  problem: Signal<Problem | null>;
  asking: Signal<boolean>;
}

/** Ask what would be, anew with every address; what was asked before is not waited for. Null: nothing is asked. */
export function useIfSo<Row>(address: string | null): IfSo<Row> {
  const rows = useSignal<Row[] | null>(null);
  const problem = useSignal<Problem | null>(null);
  const asking = useSignal(false);
  useEffect(() => {
    if (!address) return;
    const over = new AbortController();
    asking.value = true;
    ask<Report<Row>>(address, undefined, over.signal)
      .then((told) => {
        if (over.signal.aborted) return;
        rows.value = told.rows;
        problem.value = null;
      })
      .catch((error: unknown) => {
        if (!over.signal.aborted) problem.value = problemOf(error);
      })
      .finally(() => {
        if (!over.signal.aborted) asking.value = false;
      });
    return () => over.abort();
  }, [address]);
  return { rows, problem, asking };
}
