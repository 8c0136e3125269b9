import { effect, signal } from "@preact/signals";
import { setClock } from "../clock";
import { unkept } from "../copy";
import { toLookAt, waiting, waitingSince } from "../line";
import { heard } from "../news";
import { keepSendingPictures } from "../photos/sending";
import { type Problem, Refused } from "../problem";
import { returned } from "../pulse";
import { ask } from "../request";
import { me } from "../session";
import { type Entry, store } from "../store";
import type { Wire } from "../wire";
import { look, parked, unsent } from "./entries";
import { type Exchanged, place, takeUp } from "./exchanging";
import { holding, TOGETHER } from "./handing_in";
import { keepLaying } from "./laying";
import { measured } from "./measured";
import { madeBy } from "./saving";

const PROTOCOL = 1;
const LOCK = "chooseby outbox";

/** Why the house takes nothing of this device as it is; a person must do something. Nothing is lost. */
export const stuck = signal<Problem | null>(null);

/** The house was restored and waits for what devices hold; null where it does not. */
export const restored = signal<Wire["Restored"] | null>(null);

/** Whose outbox is handed in: the device that was last signed in on, whoever is in now. */
const OUTBOX = "outbox of";

const SHORTEST = 1_000;
const LONGEST = 30_000;
/** What is only told of (SY11), and what a backup has meanwhile, is asked about this often. */
const EVERY = 60_000;

let pause = SHORTEST;
let timer: ReturnType<typeof setTimeout> | undefined;

/** So long an exchange may take: in a dead spot one can hang for minutes, and all that follows with it. */
const PATIENCE = 60_000;

let sending = false;
let wanted = false;
let attempt: AbortController | null = null;

/** Hand in the outbox now; an attempt that hangs is given up, and made anew with the same bytes. */
export function sendNow(): Promise<void> {
  attempt?.abort();
  return send();
}

/** Hand in the outbox now; where another page of this device is at it, that page does. */
export async function send(): Promise<void> {
  wanted = true;
  if (sending) return;
  sending = true;
  clearTimeout(timer);
  try {
    while (wanted) {
      wanted = false;
      await navigator.locks.request(LOCK, { ifAvailable: true }, async (mine) => {
        if (mine) await sendAll();
      });
    }
  } finally {
    sending = false;
    later(unsent.peek().length || restored.peek() ? pause : EVERY);
  }
}

function later(milliseconds: number): void {
  clearTimeout(timer);
  // not everybody at once: a house that comes back has several phones
  timer = setTimeout(() => void send(), milliseconds * (1 + Math.random() / 2));
}

async function sendAll(): Promise<void> {
  const device = (await (await store()).get("device", OUTBOX)) as string | undefined;
  if (!device) return;
  try {
    while (await exchange(device)) pause = SHORTEST;
    pause = SHORTEST;
  } catch (error) {
    const wait = error instanceof Refused ? error.wait * 1_000 : 0;
    pause = Math.max(wait, Math.min(LONGEST, pause * 2));
    const problem = error instanceof Refused ? error.problem : null;
    // something between here and the house may answer in its place, in its own words
    const isSilence = error instanceof TypeError || error instanceof SyntaxError;
    if (!problem && !isSilence) throw error;
    // silence, overload and a session that has ended pass; anything else a person must know of
    const passes = !problem || [401, 429].includes(problem.status) || problem.status >= 500;
    stuck.value = passes ? stuck.peek() : problem;
  }
}

/** One exchange; answers whether another should follow at once. */
async function exchange(device: string): Promise<boolean> {
  const open = await store();
  const own = (await open.getAll("outbox")).filter((entry) => entry.device === device);
  const made = ((await open.get("device", madeBy(device))) as number | undefined) ?? 0;
  if (restored.peek()?.hand_in) {
    for (const held of holding(own, made)) await asked(device, made, { held });
    return restored.peek() === null;
  }
  const waiting = own.filter(({ answered }) => !answered).sort((one, other) => one.n - other.n);
  const given = waiting.slice(0, TOGETHER);
  const told = await asked(device, made, { commands: given.map(({ command }) => command) });
  stuck.value = whyStuck(told, given);
  if (restored.peek()) return Boolean(restored.peek()?.hand_in);
  const answered = told.answers.filter(({ position }) => position !== null).length;
  return answered > 0 && waiting.length > answered;
}

async function asked(
  device: string,
  made: number,
  more: Partial<Wire["Exchange"]>,
): Promise<Exchanged> {
  const sent: Wire["Exchange"] = { protocol: PROTOCOL, ...(await place()), device, made, ...more };
  const began = Date.now();
  const told = await attempted(sent);
  measured(told.server_time, began, Date.now());
  setClock(told.server_time);
  const wasAnother = sent.epoch !== "" && sent.epoch !== told.epoch;
  await takeUp(told, device);
  restored.value = told.restored ?? (wasAnother ? restored.peek() : null);
  heard(Math.max(0, ...told.answers.map(({ position }) => position ?? 0)));
  return told;
}

async function attempted(sent: Wire["Exchange"]): Promise<Exchanged> {
  const mine = new AbortController();
  attempt = mine;
  const patience = setTimeout(() => mine.abort(), PATIENCE);
  try {
    return await ask<Exchanged>("/api/exchange", sent, mine.signal);
  } finally {
    clearTimeout(patience);
    attempt = null;
  }
}

/** What the house refused to take at all: its number is not used, and nothing behind it is looked at. */
function whyStuck(told: Exchanged, given: Entry[]): Problem | null {
  const refused = told.answers.find(({ position, id }) => {
    return position === null && given.some((entry) => entry.id === id);
  });
  return refused?.problem ?? null;
}

/** Hand in whatever waits, from now on and for as long as the program runs. */
export async function keepSending(): Promise<void> {
  try {
    await look();
  } catch (error) {
    // a browser that keeps nothing has no records; the check of this device says so
    unkept.value = error instanceof Error ? error.message : String(error);
  }
  keepSendingPictures();
  keepLaying();
  effect(() => {
    waiting.value = unsent.value.length;
    waitingSince.value = unsent.value[0]?.savedAt ?? null;
    toLookAt.value = parked.value.length;
  });
  effect(() => {
    returned.value;
    const device = me.value?.device?.id;
    void (device ? whose(device) : Promise.resolve()).then(send);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void send();
  });
}

async function whose(device: string): Promise<void> {
  await (await store()).put("device", device, OUTBOX);
}
