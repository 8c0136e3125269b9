import { aheadBy } from "../clock";
import type { Command } from "../command";
import { type Entry, store } from "../store";
import { baseOf, decidedOn } from "./basing";
import { changed } from "./entries";
import { clockAt } from "./measured";

/** Where the highest number that was given to a command of a device stands. */
export function madeBy(device: string): string {
  return `made by ${device}`;
}

/**
 * Save a command in the outbox of a device, for good: its number and itself in one transaction, written through
 * to the disk before it is done (SY1, SY4). From then on it never changes.
 */
export async function save(command: Command, device: string, words: string): Promise<Entry> {
  const open = await store();
  const savedAt = Date.now();
  const change = open.transaction(["device", "outbox"], "readwrite", { durability: "strict" });
  const [single, outbox] = [change.objectStore("device"), change.objectStore("outbox")];
  const before = await outbox.get(command.id);
  if (before) {
    await change.done;
    return before;
  }
  const n = (((await single.get(madeBy(device))) as number | undefined) ?? 0) + 1;
  const at = `${new Date(savedAt).toISOString().slice(0, 19)}Z`;
  const clock = clockAt(savedAt, aheadBy());
  // looked up in the same transaction, so that another page decides nothing in between
  const base = decidedOn(command) ? baseOf(command, device, await outbox.getAll()) : command.base;
  const based = base === undefined ? {} : { base };
  const entry: Entry = {
    id: command.id,
    device,
    n,
    command: { ...command, ...based, at, device, n, clock } as Command,
    savedAt,
    words,
    answered: null,
    was: null,
    settled: false,
  };
  await Promise.all([single.put(n, madeBy(device)), outbox.add(entry), change.done]);
  await changed();
  return entry;
}
