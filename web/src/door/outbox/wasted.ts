import type { Entry } from "../store";
import { notIn } from "./laying";
import { notTakenBack } from "./taken_back";

/**
 * The batches, by id or label as they were named, that this device records as wasted and the house did not have
 * yet at a position; what was taken back is not among them.
 */
export function wastedHere(all: Entry[], position: number): Set<string> {
  const stands = notTakenBack(notIn(all, position));
  return new Set(
    stands.flatMap(({ command }) => (command.kind === "waste" ? [command.body.batch] : [])),
  );
}
