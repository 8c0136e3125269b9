import type { Entry } from "../store";
import { notIn } from "./laying";

/**
 * The batches, by id or label as they were named, that this device records as wasted and the house did not have
 * yet at a position; what was taken back is not among them.
 */
export function wastedHere(all: Entry[], position: number): Set<string> {
  const fresh = notIn(all, position).map(({ command }) => command);
  const back = new Set(
    fresh.flatMap((command) => (command.kind === "correct" ? [command.body.command] : [])),
  );
  return new Set(
    fresh.flatMap((command) =>
      command.kind === "waste" && !back.has(command.id) ? [command.body.batch] : [],
    ),
  );
}
