import { trying } from "./copy";
import { me } from "./session";
import { store } from "./store";

const keyOf = (name: string): string => `draft ${me.peek()?.person.id ?? ""} ${name}`;

/** What this person had begun on this device, through a page that was killed and through an update. */
export async function draftOf<Draft>(name: string): Promise<Draft | null> {
  const kept = await trying(async () => (await store()).get("device", keyOf(name)));
  return (kept as Draft | undefined) ?? null;
}

/** Keep what this person has begun. */
export async function keepDraft(name: string, draft: unknown): Promise<void> {
  await trying(async () => (await store()).put("device", draft, keyOf(name)));
}

/** What was begun is recorded, or given up. */
export async function forgetDraft(name: string): Promise<void> {
  await trying(async () => (await store()).delete("device", keyOf(name)));
}

/** Take away what was begun before an instant of this device's clock, in milliseconds, and never recorded. */
export async function forgetDraftsBefore(at: number): Promise<void> {
  await trying(async () => {
    const open = await store();
    for (const key of await open.getAllKeys("device", IDBKeyRange.bound("draft ", "draft!"))) {
      const kept = (await open.get("device", key)) as { at?: number } | undefined;
      if (kept?.at !== undefined && kept.at < at) await open.delete("device", key);
    }
  });
}
