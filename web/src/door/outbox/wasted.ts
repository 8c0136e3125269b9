import type { Entry } from "../store";

/** The batches, by id and by label as they were named, that these records of this device waste and do not take back. */
export function wastedHere(all: Entry[]): Set<string> {
  const back = new Set(
    all.flatMap(({ command }) => (command.kind === "correct" ? [command.body.command] : [])),
  );
  return new Set(
    all.flatMap(({ id, command, answered }) =>
      command.kind === "waste" && !back.has(id) && stands(answered) ? [command.body.batch] : [],
    ),
  );
}

function stands(answered: Entry["answered"]): boolean {
  return !answered || answered.answer.outcome === "applied";
}
