import { effect, signal } from "@preact/signals";
import { busy, lookAtFields } from "./busy";
import { returned } from "./pulse";

/** The worker of a newer build that is whole on this device and has not been taken; null where there is none. */
export const newer = signal<ServiceWorker | null>(null);

const WORKER = "/sw.js";
/** An open program looks for a newer one this often, in milliseconds; the browser looks whenever it is opened. */
const HOUR = 3_600_000;
/** How often it is looked whether a person is still filling something in, in milliseconds. */
const GLANCE = 1_000;
/** After the first screen, so that nobody waits for what is only needed later. */
const REST = 1_000;

/** The name of the build that this page is of. */
function ownBuild(): string | null {
  return document.querySelector<HTMLMetaElement>('meta[name="build"]')?.content ?? null;
}

/** Say something to a worker; answers the name of its build. */
function say(worker: ServiceWorker, what: "name" | "take"): Promise<string> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((answer) => {
    port1.onmessage = ({ data }) => answer(data as string);
    worker.postMessage(what, [port2]);
  });
}

async function offer(worker: ServiceWorker): Promise<void> {
  const name = await say(worker, "name");
  newer.value = name === ownBuild() ? null : worker;
}

/** A worker is offered once its whole build is here, and only where an older one is at work. */
function watch(worker: ServiceWorker | null): void {
  if (!worker) return;
  const look = () => {
    if (worker.state === "installed" && navigator.serviceWorker.controller) void offer(worker);
    if (worker.state === "redundant" && newer.value === worker) newer.value = null;
  };
  worker.addEventListener("statechange", look);
  look();
}

async function keepProgram(): Promise<void> {
  let standing: ServiceWorkerRegistration;
  try {
    standing = await navigator.serviceWorker.register(WORKER, { updateViaCache: "none" });
  } catch {
    // what this browser does not give, and why, is said by the check of this device
    return;
  }
  watch(standing.waiting);
  watch(standing.installing);
  standing.addEventListener("updatefound", () => watch(standing.installing));
  const look = () => {
    // a house that is silent now is asked again when it answers
    if (document.visibilityState === "visible") standing.update().catch(() => undefined);
  };
  document.addEventListener("visibilitychange", look);
  setInterval(look, HOUR);
  effect(() => {
    if (returned.value > 0) look();
  });
}

/** Have the whole program on this device, where the browser gives a worker for it. */
export function keepTheProgram(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  effect(() => {
    if (!newer.value) return;
    const glance = setInterval(lookAtFields, GLANCE);
    return () => clearInterval(glance);
  });
  addEventListener("load", () => setTimeout(() => void keepProgram(), REST));
}

/** Start again with the newer build; not under something that is being filled in or recorded. */
export async function takeNewer(): Promise<void> {
  const worker = newer.value;
  lookAtFields();
  if (!worker || busy.value) return;
  await say(worker, "take");
  if (!busy.value) location.reload();
}
