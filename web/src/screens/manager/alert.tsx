import type { Alert as Kind } from "../../door/rows";

const ALERTS: Record<Kind, string> = {
  none: "not yet due",
  open: "order now",
  last_call: "last call",
  missed: "too late",
};

/** How near a deadline is, in a word with a form of its own. */
export function Alert({ alert }: { alert: Kind }) {
  return <span class={`alert ${alert}`}>{ALERTS[alert]}</span>;
}
