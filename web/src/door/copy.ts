import { signal } from "@preact/signals";
import { present } from "./clock";
import { type Kept, store } from "./store";
import type { Wire } from "./wire";

type Me = Wire["Me"];

/** Who came in last on this device, with the house's time and this device's at the house's last answer. */
export interface Last {
  me: Me;
  /** The house's instant, as RFC 3339 writes it. */
  houseNow: string;
  /** This device's clock then, in milliseconds. */
  at: number;
}

/** Why the browser lets nothing be kept here; null where it does, as far as is known. */
export const unkept = signal<string | null>(null);

let keeping = false;

/**
 * Whether a device keeps a copy of what the house says: an enrolled one, and a porter's. What a porter is told has
 * no costs and no names with allergies in it (SY10); others keep it only on a device that the house can revoke.
 */
export function keepsCopy(who: Me): boolean {
  return Boolean(who.device) || who.person.role === "porter";
}

/** Keep from now on what the house says to this person; what was kept for another role goes first. */
export async function keepFor(found: Me): Promise<void> {
  keeping = keepsCopy(found);
  await trying(async () => {
    const open = await store();
    const whose = `${found.house.id} ${found.person.role}`;
    if (!keeping || (await open.get("device", "whose")) !== whose) await forgetCopy();
    if (!keeping) return;
    const { token: _, ...kept } = found;
    await open.put("device", whose, "whose");
    await open.put("device", kept, "me");
    await keepTime(open);
  });
}

/** Who came in last, as far as this device knows; null where nobody did or it was signed out. */
export async function lastMe(): Promise<Last | null> {
  const open = await store();
  const [me, time] = await Promise.all([open.get("device", "me"), open.get("device", "answered")]);
  if (!me || !time) return null;
  return { me: me as Me, ...(time as Omit<Last, "me">) };
}

/** Nobody is in any more; what was said stays for the next of the same role. */
export async function forgetMe(): Promise<void> {
  await trying(async () => (await store()).delete("device", "me"));
}

/** Take off this device what the house has said; what waits to be sent stays. */
export async function forgetCopy(): Promise<void> {
  await trying(async () => {
    const open = await store();
    await Promise.all([open.clear("copy"), open.delete("device", "me")]);
  });
}

/** Go on keeping for who came in last. */
export function keepOn(): void {
  keeping = true;
}

/** Keep what a report said, where this device keeps a copy. */
export async function keep(address: string, said: unknown): Promise<void> {
  if (!keeping) return;
  await trying(async () => {
    const open = await store();
    await open.put("copy", { address, said, at: Date.now() });
    await keepTime(open);
  });
}

/** What a report last said to this device. */
export async function kept(address: string): Promise<Kept | undefined> {
  return trying(async () => (await store()).get("copy", address));
}

async function keepTime(open: Awaited<ReturnType<typeof store>>): Promise<void> {
  await open.put("device", { houseNow: present().toISOString(), at: Date.now() }, "answered");
}

/** A browser that keeps nothing is no reason not to work with the house; it is said. */
export async function trying<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work();
  } catch (error) {
    unkept.value = error instanceof Error ? error.message : String(error);
    return undefined;
  }
}
