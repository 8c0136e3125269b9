import { computed, signal } from "@preact/signals";
import { askToLast } from "./ability";
import { setClock } from "./clock";
import type { Kind } from "./command";
import { forgetCopy, forgetMe, keepFor, keepOn, keepsCopy, type Last, lastMe } from "./copy";
import { answeredAt } from "./line";
import { ask, whenStranger } from "./request";
import type { ReportName } from "./rows";
import type { Wire } from "./wire";

export type Role = Wire["Person"]["role"];
export type Me = Wire["Me"];
export type Front = Wire["Front"];
export type NewHouse = Wire["NewHouse"];

/** Who is signed in here: `undefined` until the house has been asked, `null` for nobody. */
export const me = signal<Me | null | undefined>(undefined);

export const role = computed<Role | null>(() => me.value?.person.role ?? null);

export function mayGive(kind: Kind): boolean {
  return me.value?.may.commands.includes(kind) ?? false;
}

export function mayRead(report: ReportName): boolean {
  return me.value?.may.reports.includes(report) ?? false;
}

/** Whether this device kept a copy once and the browser has cleared it: the house knows it, and it knows nothing. */
export const cleared = signal(false);

/** Whose session ended in the middle of their work: the first who is asked for a PIN. */
export const wasIn = signal<string | null>(null);

whenStranger(() => {
  wasIn.value = me.value?.person.name ?? wasIn.value;
  me.value = null;
  void forgetMe();
});

/** Take up who the house says has come in. */
export async function enter(found: Me): Promise<Me> {
  setClock(found.now);
  await keepFor(found);
  // what it has promised is told by the check of this device
  if (keepsCopy(found)) void askToLast();
  me.value = found;
  return found;
}

/** Take up who came in last on this device, until the house has been asked. */
async function remember(): Promise<Last | null> {
  // a browser that keeps nothing has nobody to remember; `copy` says why
  const last = await lastMe().catch(() => null);
  if (last && me.value === undefined) {
    setClock(last.houseNow, last.at);
    answeredAt.value = last.at;
    keepOn();
    me.value = last.me;
  }
  return last;
}

/**
 * Who is signed in on this device: as it was kept here at once, and as the house says when it answers.
 * Throws `TypeError` where it does not answer.
 */
export async function recognise(): Promise<void> {
  const last = await remember();
  try {
    const found = await enter(await ask<Me>("/api/me"));
    if (!last && keepsCopy(found)) cleared.value = true;
  } catch (error) {
    if (me.value === undefined && !(error instanceof TypeError)) me.value = null;
    else if (error instanceof TypeError) throw error;
  }
}

export const front = (): Promise<Front> => ask<Front>("/api/front");

export async function signIn(name: string, password: string, house?: string): Promise<Me> {
  const sent: Wire["SignIn"] = { name, password, ...(house ? { house } : {}) };
  return enter(await ask<Me>("/api/sign-in", sent));
}

export async function comeIn(
  name: string,
  code: string,
  password: string,
  house?: string,
): Promise<Me> {
  const sent: Wire["UseWayIn"] = { name, code, password, ...(house ? { house } : {}) };
  return enter(await ask<Me>("/api/way-in", sent));
}

export async function beFirst(
  secret: string,
  name: string,
  password: string,
  house?: NewHouse,
): Promise<Me> {
  const sent: Wire["FirstManager"] = { secret, name, password, ...(house ? { house } : {}) };
  return enter(await ask<Me>("/api/first-manager", sent));
}

export async function signOut(): Promise<void> {
  await ask<void>("/api/sign-out", {});
  await forgetCopy();
  wasIn.value = null;
  me.value = null;
}
