import { computed, signal } from "@preact/signals";
import { type Entry, store } from "../store";

/** Everything the outbox of this device holds, in the order it was saved. */
export const entries = signal<Entry[]>([]);

/** What the house has not answered yet. */
export const unsent = computed(() => entries.value.filter((entry) => !entry.answered));

/** What was refused, is in conflict, or is kept for a question, and nobody has put away. */
export const parked = computed(() =>
  entries.value.filter(
    ({ answered, settled }) => answered && answered.answer.outcome !== "applied" && !settled,
  ),
);

const CHANNEL = "chooseby outbox";

/** Tells the other pages of this device that the outbox has changed. */
const others = new BroadcastChannel(CHANNEL);
others.addEventListener("message", () => void look());

/** Read the outbox from the store. */
export async function look(): Promise<void> {
  const all = await (await store()).getAll("outbox");
  // by their numbers: the clock of a phone may be set back
  entries.value = all.sort((one, other) => byDevice(one, other) || one.n - other.n);
}

/** What is left of an earlier life of this device, before it was enrolled again, comes first. */
function byDevice(one: Entry, other: Entry): number {
  return one.device === other.device ? 0 : one.savedAt - other.savedAt;
}

/** The outbox was written: here and on the other pages it is read again. */
export async function changed(): Promise<void> {
  others.postMessage("changed");
  await look();
}

/** A person has seen what became of a record. */
export async function settle(entry: Entry): Promise<void> {
  const open = await store();
  const change = open.transaction("outbox", "readwrite", { durability: "strict" });
  const kept = await change.store.get(entry.id);
  await Promise.all([kept && change.store.put({ ...kept, settled: true }), change.done]);
  await changed();
}
