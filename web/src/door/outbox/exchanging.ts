import { type Answered, type Entry, type Kept, store } from "../store";
import type { Wire } from "../wire";
import { changed } from "./entries";

export type Exchanged = Wire["Exchanged"];

/** How far this device has come with the house (SY5). */
export interface Place {
  epoch: string;
  cursor: number;
}

const PLACE = "place";

/** Where the report is kept over which own records are laid. */
const LAID_OVER = "/api/reports/expected";

/** Where the device stands. */
export async function place(): Promise<Place> {
  const kept = (await (await store()).get("device", PLACE)) as Place | undefined;
  return kept ?? { epoch: "", cursor: 0 };
}

/**
 * Take up what an exchange answered, in one transaction: the answers, how far the device has come, and what a
 * verified backup has, which need not be held any longer (SY7). In another life of the house, after a restore,
 * every answer of before is put aside: what is held is handed in again.
 */
export async function takeUp(told: Exchanged, device: string): Promise<void> {
  const open = await store();
  const stores = ["device", "outbox", "copy"] as const;
  const change = open.transaction(stores, "readwrite", { durability: "strict" });
  const [single, outbox] = [change.objectStore("device"), change.objectStore("outbox")];
  const copied = positionOf(await change.objectStore("copy").get(LAID_OVER));
  const before = (await single.get(PLACE)) as Place | undefined;
  const isAnother = Boolean(before?.epoch) && before?.epoch !== told.epoch;
  const cursor = isAnother ? 0 : told.cursor;
  const written: Promise<unknown>[] = [single.put({ epoch: told.epoch, cursor }, PLACE)];
  for (const entry of await outbox.getAll()) {
    const after = isAnother ? putAside(entry) : answeredBy(entry, told);
    if (isDone(after, told, device, copied)) written.push(outbox.delete(entry.id));
    else if (after !== entry) written.push(outbox.put(after));
  }
  await Promise.all([...written, change.done]);
  await changed();
}

function putAside(entry: Entry): Entry {
  return entry.answered ? { ...entry, answered: null, was: entry.answered } : entry;
}

function answeredBy(entry: Entry, told: Exchanged): Entry {
  const answer = told.answers.find(({ id }) => id === entry.id);
  if (!answer || entry.answered || !isKept(answer)) return entry;
  const answered: Answered = { answer, epoch: told.epoch, at: told.server_time };
  return { ...entry, answered };
}

/** An answer without a place in the journal has not used the number: the command is still to be handed in. */
function isKept(answer: Wire["Answer"]): boolean {
  return answer.position !== null;
}

/** How far the kept report had come, over which own records are laid; where none is kept, nothing is laid. */
function positionOf(kept: Kept | undefined): number {
  return kept ? (kept.said as { position: number }).position : Number.POSITIVE_INFINITY;
}

/** A verified backup has it, and so has what this device shows: without it a record would be shown no more. */
function isDone(entry: Entry, told: Exchanged, device: string, copied: number): boolean {
  const { answered, settled, device: of } = entry;
  if (!answered || of !== device || answered.epoch !== told.epoch) return false;
  const isSeen = answered.answer.outcome === "applied" || settled;
  return isSeen && (answered.answer.position ?? 0) <= Math.min(told.backed_up, copied);
}
