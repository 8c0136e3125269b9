import { present } from "./clock";
import { waiting } from "./line";
import { heard } from "./news";
import { NOT_WHOLE, type Problem, SILENCE } from "./problem";
import { ask } from "./request";
import { me } from "./session";
import type { Wire } from "./wire";

/**
 * A command as it is sent, by its kind with the body of that kind; once made it never changes, so that
 * sending it again is the same bytes.
 */
export type Command = Wire["Command"];
export type Kind = Command["kind"];
export type CommandOf<K extends Kind> = Extract<Command, { kind: K }>;
export type BodyOf<K extends Kind> = CommandOf<K>["body"];
/** What became of a command: what the house said, or that it is saved on this device and will be handed in. */
export type Answer = Omit<Wire["Answer"], "outcome"> & {
  outcome: Wire["Answer"]["outcome"] | "saved";
};

/** Whether a command stands as far as this device can know. */
export function isGiven({ outcome }: Answer): boolean {
  return outcome === "applied" || outcome === "saved";
}

/** A new UUIDv7 (RFC 9562, section 5.7), sortable by the millisecond it was made in. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let milliseconds = Date.now();
  for (let place = 5; place >= 0; place -= 1) {
    bytes[place] = milliseconds % 256;
    milliseconds = Math.floor(milliseconds / 256);
  }
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/** A command of who is signed in, that happened now. */
export function newCommand<K extends Kind>(
  kind: K,
  body: BodyOf<K>,
  base?: number | string,
): CommandOf<K> {
  const person = me.value?.person.name ?? "";
  const at = `${present().toISOString().slice(0, 19)}Z`;
  const based = base === undefined ? {} : { base };
  // kind and body belong together by their types; the compiler does not follow that into a union
  return { id: newId(), kind, at, person, ...based, body } as CommandOf<K>;
}

const PAUSES = [500, 1_000, 2_000, 4_000, 8_000];

/** What saves a command on a device of the house; it comes after the first screen, before the first record. */
export const bringGiving = () => import("./outbox/giving_from_device");

/**
 * Give one command: on a device of the house by its outbox, which saves it first; else to the house at once.
 * `words` say what it was, for whoever looks into the outbox. A device that went silent before it had what saves
 * a command refuses it, so that nobody takes it for saved.
 */
export async function give(command: Command, words = ""): Promise<Answer> {
  const device = me.value?.device?.id;
  if (!device) return giveNow(command);
  const giving = await bringGiving().catch(() => null);
  if (giving) return giving.giveFrom(device, command, words);
  return { id: command.id, outcome: "refused", position: null, problem: NOT_WHOLE };
}

/**
 * Give one command to the house and wait for its answer.
 *
 * Silence, overload and faults of the house are tried again with the same bytes; what stays unanswered
 * is answered as refused for silence, and may be given again: the house keeps a command once.
 */
async function giveNow(command: Command): Promise<Answer> {
  waiting.value += 1;
  try {
    for (const pause of [...PAUSES, 0]) {
      const answer = await once(command);
      if (answer) {
        heard(answer.position);
        return answer;
      }
      await new Promise((go) => setTimeout(go, pause));
    }
    return { id: command.id, outcome: "refused", position: null, problem: SILENCE };
  } finally {
    waiting.value -= 1;
  }
}

async function once(command: Command): Promise<Answer | null> {
  try {
    const [answer] = await ask<Wire["Answer"][]>("/api/commands", [command]);
    return answer ?? null;
  } catch (error) {
    if (error instanceof TypeError) return null;
    const problem = (error as { problem?: Problem }).problem;
    if (!problem) throw error;
    if (problem.status === 429 || problem.status >= 500) return null;
    return { id: command.id, outcome: "refused", position: null, problem };
  }
}
