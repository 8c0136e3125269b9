import { computed, signal } from "@preact/signals";
import { setClock } from "./clock";
import { ask, whenStranger } from "./request";

export type Role = "porter" | "chef" | "manager" | "approver";

export interface Me {
  person: { id: string; name: string; role: Role };
  house: {
    id: string;
    name: string;
    zone: string;
    currency: string;
    unit_system: string;
    decimal_mark: string;
    notice: string;
  };
  now: string;
  epoch: string;
  position: number;
  may: { commands: string[]; reports: string[] };
}

export interface Front {
  schema: number;
  needs: "house" | "first_manager" | "sign_in";
  houses: string[];
  now: string;
}

/** Who is signed in here: `undefined` until the house has been asked, `null` for nobody. */
export const me = signal<Me | null | undefined>(undefined);

export const role = computed<Role | null>(() => me.value?.person.role ?? null);

export function mayGive(kind: string): boolean {
  return me.value?.may.commands.includes(kind) ?? false;
}

export function mayRead(report: string): boolean {
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
  return enter(await ask<Me>("/api/sign-in", { name, password, ...(house ? { house } : {}) }));
}

export async function comeIn(
  name: string,
  code: string,
  password: string,
  house?: string,
): Promise<Me> {
  const sent = { name, code, password, ...(house ? { house } : {}) };
  return enter(await ask<Me>("/api/way-in", sent));
}

export interface NewHouse {
  name: string;
  time_zone: string;
  currency: string;
  unit_system: string;
  notice?: string;
}

export async function beFirst(
  secret: string,
  name: string,
  password: string,
  house?: NewHouse,
): Promise<Me> {
  const sent = { secret, name, password, ...(house ? { house } : {}) };
  return enter(await ask<Me>("/api/first-manager", sent));
}

export async function signOut(): Promise<void> {
  await ask<void>("/api/sign-out", {});
  me.value = null;
}
