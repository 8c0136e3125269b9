import { computed, signal } from "@preact/signals";
import { setClock } from "./clock";
import type { Kind } from "./command";
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

whenStranger(() => {
  me.value = null;
});

function enter(found: Me): Me {
  setClock(found.now);
  me.value = found;
  return found;
}

/** Ask the house who is signed in on this device. */
export async function recognise(): Promise<void> {
  try {
    enter(await ask<Me>("/api/me"));
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
  me.value = null;
}
