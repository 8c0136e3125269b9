import { effect, signal } from "@preact/signals";
import { answering, doubted } from "./line";
import { ask } from "./request";

/** How often the house has come back after a silence; what could not be asked then is asked again. */
export const returned = signal(0);

const PAUSE = 3_000;
/** How long a knock waits for the house, in milliseconds: one that is not there may say nothing for minutes. */
const PATIENCE = 3_000;

let asking: ReturnType<typeof setTimeout> | undefined;
let silent = false;

async function knock(): Promise<void> {
  try {
    await ask("/api/health", undefined, AbortSignal.timeout(PATIENCE));
  } catch {
    clearTimeout(asking);
    asking = setTimeout(() => void knock(), PAUSE);
  }
}

// from the first silence on somebody knocks until the house answers: only a real reply counts
effect(() => {
  if (answering.value) {
    clearTimeout(asking);
    if (silent) returned.value = returned.peek() + 1;
    silent = false;
  } else if (!silent) {
    silent = true;
    asking = setTimeout(() => void knock(), PAUSE);
  }
});

// an answer that is long in coming is of a house that is busy, or of one that is out of reach
effect(() => {
  if (doubted.value > 0 && answering.peek()) void knock();
});
