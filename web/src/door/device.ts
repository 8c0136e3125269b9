import { type Problem, Refused } from "./problem";
import { ask } from "./request";
import { enter, type Me } from "./session";
import type { Wire } from "./wire";

export type ThisDevice = Wire["ThisDevice"];
export type OnePerson = Wire["OnePerson"];

/** What this browser is to the house: one of its devices, one that was taken out, or neither. */
export interface Standing {
  device: ThisDevice | null;
  /** Why it is one no longer. */
  takenOut: Problem | null;
}

const TAKEN_OUT: Problem = {
  type: "about:blank",
  title: "taken out",
  status: 403,
  code: "device_taken_out",
  detail:
    "This phone was taken out of the house; what it still holds is handed in for the manager.",
  todo: "Has it been found again, ask the manager for a new code for it.",
};

/**
 * Ask the house what this browser is to it.
 *
 * Throws `Refused` for anything else that the house says, `TypeError` where it does not answer.
 */
export async function standing(): Promise<Standing> {
  try {
    return { device: await ask<ThisDevice>("/api/device"), takenOut: null };
  } catch (error) {
    const code = error instanceof Refused ? error.problem.code : "";
    if (code === "device_not_known") return { device: null, takenOut: null };
    if (code === "device_taken_out") return { device: null, takenOut: TAKEN_OUT };
    throw error;
  }
}

/** Become one of the house's devices, by a code that a manager made. */
export function enrol(code: string): Promise<ThisDevice> {
  const sent: Wire["EnrolByCode"] = { code };
  return ask<ThisDevice>("/api/devices/enrol", sent);
}

/** Come in by PIN. */
export async function enterByPin(person: string, pin: string): Promise<Me> {
  const sent: Wire["EnterPin"] = { person, pin };
  return enter(await ask<Me>("/api/pin", sent));
}

/** By what a person says who they are before they choose a PIN. */
export type Proof = { password: string } | { code: string };

/** Choose one's own PIN, and come in. */
export async function choosePin(person: string, pin: string, proof: Proof): Promise<Me> {
  const sent: Wire["SetPin"] = { person, pin, ...proof };
  return enter(await ask<Me>("/api/pin/set", sent));
}
