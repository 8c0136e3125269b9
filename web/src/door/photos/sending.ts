import { effect } from "@preact/signals";
import { picturesRefused, picturesWaiting } from "../line";
import { type Problem, Refused } from "../problem";
import { returned } from "../pulse";
import { ask } from "../request";
import { me } from "../session";
import { type Picture, store } from "../store";

const LOCK = "chooseby pictures";
const SHORTEST = 2_000;
const LONGEST = 60_000;
/** Sent pictures stay on the device this long, in milliseconds. */
const STAYS = 3 * 24 * 60 * 60 * 1_000;

/** What became of a picture that the house did not speak against. */
export type Sent = "sent" | "later";

let pause = SHORTEST;
let timer: ReturnType<typeof setTimeout> | undefined;
let sending = false;
let wanted = false;

/** Send the pictures that wait; where another page of this device is at it, that page does. */
export async function sendPictures(): Promise<void> {
  wanted = true;
  if (sending) return;
  sending = true;
  clearTimeout(timer);
  try {
    while (wanted) {
      wanted = false;
      await count();
      await navigator.locks.request(LOCK, { ifAvailable: true }, async (mine) => {
        if (mine) await sendAll();
      });
    }
  } finally {
    sending = false;
  }
  const waits = await count();
  pause = waits ? Math.min(LONGEST, pause * 2) : SHORTEST;
  // what another page sends is counted here, too
  if (waits) timer = setTimeout(() => void sendPictures(), pause);
}

async function sendAll(): Promise<void> {
  for (const picture of await unsent()) {
    const said = await sent(picture);
    // what is rarely needed is not brought before
    const outcome =
      typeof said === "string"
        ? said
        : await (await import("./not_taken")).notTaken(picture, said, sent);
    if (outcome === "later") return;
    if (outcome === "sent") {
      const open = await store();
      await open.put("pictures", {
        ...((await open.get("pictures", picture.id)) ?? picture),
        sentAt: Date.now(),
      });
    }
    pause = SHORTEST;
  }
  await tidy();
}

/** Send one; the problem where this one is not taken, which hinders no other. */
async function sent({ id, bytes }: Picture): Promise<Sent | Problem> {
  try {
    await ask(`/api/pictures/${id}`, bytes);
    return "sent";
  } catch (error) {
    if (error instanceof TypeError) return "later";
    if (!(error instanceof Refused)) throw error;
    const { status, code } = error.problem;
    // an id is of one picture only: the house has it
    if (code === "picture_taken") return "sent";
    return [401, 403, 429].includes(status) || status >= 500 ? "later" : error.problem;
  }
}

async function unsent(): Promise<Picture[]> {
  const all = await (await store()).getAll("pictures");
  return all
    .filter(({ sentAt, refused }) => sentAt === null && !refused)
    .sort((a, b) => a.takenAt - b.takenAt);
}

/** Count what waits and what was not taken; answers how many wait. */
export async function count(): Promise<number> {
  const all = await (await store()).getAll("pictures");
  picturesRefused.value = all.filter(({ refused }) => refused).length;
  picturesWaiting.value = (await unsent()).length;
  return picturesWaiting.value;
}

async function tidy(): Promise<void> {
  const open = await store();
  const all = await open.getAll("pictures");
  const old = all.filter(({ sentAt }) => sentAt !== null && Date.now() - sentAt > STAYS);
  await Promise.all(old.map(({ id }) => open.delete("pictures", id)));
}

/** Send whatever waits whenever somebody comes in or the house comes back, as long as the program runs. */
export function keepSendingPictures(): void {
  effect(() => {
    returned.value;
    if (me.value) void sendPictures();
  });
}
