import { type Problem, Refused } from "../problem";
import { type Picture, store } from "../store";
import { count, type Sent, sendPictures } from "./sending";

/**
 * A picture was not taken: one that is too big is drawn smaller and sent once more; any other, and what stays too big,
 * waits for a person to look at it.
 */
export async function notTaken(
  picture: Picture,
  problem: Problem,
  send: (picture: Picture) => Promise<Sent | Problem>,
): Promise<Sent | "parked"> {
  let [now, outcome]: [Picture, Sent | Problem] = [picture, problem];
  if (problem.status === 413 && !picture.small) {
    now = await smaller(picture);
    outcome = await send(now);
  }
  if (typeof outcome === "string") return outcome;
  await (await store()).put("pictures", { ...now, refused: inWords(outcome) });
  return "parked";
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

/** The pictures that were not taken, the oldest first. */
export async function allNotTaken(): Promise<Picture[]> {
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
