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
  entries.value = all.sort((one, other) => one.savedAt - other.savedAt || one.n - other.n);
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
