import { effect, signal } from "@preact/signals";
import { busy, lookAtFields } from "./busy";
import { answering } from "./line";
import { returned } from "./pulse";

/** How often the house had come back when a part of the program did not come; null where all came that was asked for. */
const lacking = signal<number | null>(null);

/** How often it is looked whether a person is still filling something in, in milliseconds. */
const GLANCE = 1_000;
/** A part that never comes must not have the page start anew without end: so long apart, in milliseconds. */
const APART = 60_000;
const STARTED = "chooseby started anew";

function startAnew(): void {
  lookAtFields();
  const before = Number(sessionStorage.getItem(STARTED) ?? 0);
  if (busy.value || Date.now() - before < APART) return;
  sessionStorage.setItem(STARTED, String(Date.now()));
  location.reload();
}

/**
 * Start the page anew when the house answers again after a part of the program did not come: a browser does not ask
 * for a module a second time that failed once. Not under something that is being filled in or recorded.
 */
export function keepWhole(): void {
  addEventListener("vite:preloadError", () => {
    answering.value = false;
    lacking.value ??= returned.peek();
  });
  effect(() => {
    if (lacking.value === null || returned.value === lacking.value) return;
    startAnew();
    const glance = setInterval(startAnew, GLANCE);
    return () => clearInterval(glance);
  });
}
