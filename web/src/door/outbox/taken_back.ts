import type { Entry } from "../store";

/** The ids of the commands that these records take back. */
export function takenBack(records: Entry[]): Set<string> {
  return new Set(
    records.flatMap(({ command }) => (command.kind === "correct" ? [command.body.command] : [])),
  );
}

/** What stands of these records: those that none of them takes back, in the order they were saved. */
export function notTakenBack(records: Entry[]): Entry[] {
  const back = takenBack(records);
  return records.filter(({ id }) => !back.has(id));
}
