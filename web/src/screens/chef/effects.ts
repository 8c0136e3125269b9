import type { LateChangeRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { type IfSo, useIfSo } from "./if_so";

/** What a change would do, as far as the house has said. */
export type Effects = IfSo<LateChangeRow>;

/** What would become of everything else if a meal changed so; null: nothing is asked. */
export function useEffects(service: string, to: Record<string, string> | null): Effects {
  const query = to && mayRead("late-change") ? new URLSearchParams({ service, ...to }) : null;
  return useIfSo(query && `/api/reports/late-change?${query}`);
}
