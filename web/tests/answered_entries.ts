import type { Command } from "../src/door/command";
import type { Entry } from "../src/door/store";

/** Commands as an outbox holds them: each applied at its position, or unanswered where that is null. */
export function entries(commands: Command[], positions: (number | null)[]): Entry[] {
  return commands.map((command, at) => {
    const position = positions[at] ?? null;
    const answer = { id: command.id, outcome: "applied" as const, position };
    const answered = position === null ? null : { answer, epoch: "one", at: "" };
    return { id: command.id, command, n: at + 1, answered } as Entry;
  });
}
