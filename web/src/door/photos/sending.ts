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
    let outcome = await sent(picture);
    let now = picture;
    if (isTooBig(outcome) && !picture.small) {
      now = await smaller(picture);
      outcome = await sent(now);
    }
    if (outcome === "later") return;
    const open = await store();
    if (outcome === "sent") await open.put("pictures", { ...now, sentAt: Date.now() });
    else await open.put("pictures", { ...now, refused: inWords(outcome) });
    pause = SHORTEST;
  }
  await tidy();
}

/** Send one; the problem where this one is not taken, which hinders no other. */
async function sent({ id, bytes }: Picture): Promise<"sent" | "later" | Problem> {
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

function isTooBig(outcome: "sent" | "later" | Problem): outcome is Problem {
  return typeof outcome !== "string" && outcome.status === 413;
}

/** The picture drawn smaller, kept so before it is sent; as it is where it cannot be. */
async function smaller(picture: Picture): Promise<Picture> {
  const { drawnSmaller } = await import("./taking");
  const bytes = await drawnSmaller(picture.bytes).catch((error: unknown) => {
    if (error instanceof Refused) return picture.bytes;
    throw error;
  });
  const small: Picture = { ...picture, bytes, small: true };
  await (await store()).put("pictures", small);
  return small;
}

/** What stands in front of a house says nothing of what to do, and a picture cannot be sent in parts. */
function inWords(problem: Problem): Problem {
  if (problem.status !== 413) return problem;
  return {
    ...problem,
    code: "picture_too_big",
    detail: "The picture is too big for the house, or for what stands in front of it.",
    todo: "Write down in words what it shows and tell the chef. Whoever looks after the program can let pictures of 1 MB through; then try again.",
  };
}

async function unsent(): Promise<Picture[]> {
  const all = await (await store()).getAll("pictures");
  return all
    .filter(({ sentAt, refused }) => sentAt === null && !refused)
    .sort((a, b) => a.takenAt - b.takenAt);
}

async function count(): Promise<number> {
  picturesWaiting.value = (await unsent()).length;
  picturesRefused.value = (await notTaken()).length;
  return picturesWaiting.value;
}

/** The pictures that were not taken, the oldest first. */
export async function notTaken(): Promise<Picture[]> {
  const all = await (await store()).getAll("pictures");
  return all.filter(({ refused }) => refused).sort((a, b) => a.takenAt - b.takenAt);
}

/** Send one that was not taken again. */
export async function sendAgain({ refused: _, ...picture }: Picture): Promise<void> {
  await (await store()).put("pictures", picture);
  await sendPictures();
}

/** Take one that was not taken off this device: somebody has seen why. */
export async function putAway({ id }: Picture): Promise<void> {
  await (await store()).delete("pictures", id);
  await count();
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
