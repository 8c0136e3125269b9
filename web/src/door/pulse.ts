import { effect, signal } from "@preact/signals";
import { answering } from "./line";
import { ask } from "./request";

/** How often the house has come back after a silence; what could not be asked then is asked again. */
export const returned = signal(0);

const PAUSE = 3_000;

let asking: ReturnType<typeof setTimeout> | undefined;
let silent = false;

async function knock(): Promise<void> {
  try {
    await ask("/api/health");
  } catch {
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
