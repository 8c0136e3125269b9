import type { Entry } from "../store";
import type { Wire } from "../wire";

/** So many commands go with one exchange. */
export const TOGETHER = 500;

/**
 * What a device holds after the house was restored: everything up to the last command that had been answered,
 * with what it was answered, in order (SY7). What was never answered follows later, as it always would.
 */
export function holding(own: Entry[], made: number): Wire["Holding"][] {
  const sorted = [...own].sort((one, other) => one.n - other.n);
  const first = sorted[0]?.n ?? made + 1;
  const last = sorted.findLastIndex(({ was }) => was !== null);
  const held = sorted.slice(0, last + 1).map(asHeld);
  const parts: Wire["Holding"][] = [];
  for (let at = 0; at < held.length; at += TOGETHER) {
    const commands = held.slice(at, at + TOGETHER);
    parts.push({ first, commands, complete: at + TOGETHER >= held.length });
  }
  return parts.length ? parts : [{ first, commands: [], complete: true }];
}

function asHeld({ command, was }: Entry): Wire["Held"] {
  const sent = command as unknown as Wire["Held"]["command"];
  if (!was) return { command: sent };
  return { command: sent, answer: was.answer, epoch: was.epoch, answered_at: was.at };
}
