import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Problem, problemOf } from "../../door/problem";
import type { Report } from "../../door/reports";
import { ask } from "../../door/request";
import type { LateChangeRow } from "../../door/rows";
import { mayRead } from "../../door/session";

/** What a change would do, as far as the house has said. */
export interface Effects {
  /** What was last said, also while the next is being asked; null: nothing yet. */
  rows: Signal<LateChangeRow[] | null>;
  problem: Signal<Problem | null>;
  asking: Signal<boolean>;
}

/** What would become of everything else if a meal changed so; null: nothing is asked. */
export function useEffects(service: string, to: Record<string, string> | null): Effects {
  const rows = useSignal<LateChangeRow[] | null>(null);
  const problem = useSignal<Problem | null>(null);
  const asking = useSignal(false);
  const query = to && mayRead("late-change") ? new URLSearchParams({ service, ...to }) : null;
  const address = query && `/api/reports/late-change?${query}`;
  useEffect(() => {
    if (!address) return;
    const over = new AbortController();
    asking.value = true;
    ask<Report<LateChangeRow>>(address, undefined, over.signal)
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
