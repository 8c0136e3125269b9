import type { AlertRow } from "../../../door/rows";
import { listed } from "../../../words/amounts";

/** How far an alert has risen, in words. */
export const STAGES: Record<AlertRow["stage"], string> = {
  open: "order now",
  last_call: "last call",
  missed: "too late",
};

/** How far the alert of a standing order that would come to an empty house has risen. */
export const STOPS: Record<AlertRow["stage"], string> = {
  open: "stop it now",
  last_call: "last call",
  missed: "too late",
};

/** Whom it is of; where nobody brings it, what. */
export function named(row: AlertRow): string {
  return row.supplier ?? listed([...new Set(row.lines.map(({ item }) => item))]);
}

const HOUR = /^([01]\d|2[0-3]):[0-5]\d$/;

/** What a person writes as an hour: `7`, `7.30`, `07:30`; null where it is none. */
export function hourOf(written: string): string | null {
  const [, hour = "", minute = "00"] = /^(\d{1,2})(?:[:.](\d{2}))?$/.exec(written.trim()) ?? [];
  const found = `${hour.padStart(2, "0")}:${minute}`;
  return hour && HOUR.test(found) ? found : null;
}
