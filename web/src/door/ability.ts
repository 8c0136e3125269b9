/**
 * What this browser lets the program do here. A browser gives most of it only to an encrypted
 * address, and work without signal only where it trusts the certificate: one that somebody has
 * clicked past gives a camera and no worker, and nothing else tells the two apart.
 */

/** Whether a worker may stand between the screens and the house, so that they open without signal. */
export type WorkerGiven =
  | "standing"
  /** The browser would give one. */
  | "possible"
  /** There is none to be had: no encrypted address, or a private window. */
  | "absent"
  /** The browser does not trust where it would come from. */
  | "untrusted"
  /** The house was silent, or something else is wrong. */
  | "failed";

export interface Ability {
  encrypted: boolean;
  camera: boolean;
  worker: WorkerGiven;
  /** Whether the browser has promised to throw nothing away. */
  lasting: boolean;
  locks: boolean;
}

const TRIAL = "/trial.js";
const SCOPE = "/check/trial/";

/** Look at all of it; asks no person anything and leaves nothing behind. */
export async function ability(): Promise<Ability> {
  return {
    encrypted: window.isSecureContext,
    camera: Boolean(navigator.mediaDevices?.getUserMedia),
    worker: await workerGiven(navigator.serviceWorker),
    lasting: (await navigator.storage?.persisted?.()) ?? false,
    locks: Boolean(navigator.locks),
  };
}

/** Ask the browser to throw nothing away; answers whether it has promised. */
export async function askToLast(): Promise<boolean> {
  return (await navigator.storage?.persist?.()) ?? false;
}

/** Whether a worker is there already, or could be: that is only known by trying. */
export async function workerGiven(
  workers: ServiceWorkerContainer | undefined,
): Promise<WorkerGiven> {
  if (!workers) return "absent";
  try {
    const standing = await workers.getRegistration("/");
    if (standing?.active) return "standing";
    const trial = await workers.register(TRIAL, { scope: SCOPE });
    await trial.unregister();
    return "possible";
  } catch (error) {
    return error instanceof DOMException && error.name === "SecurityError" ? "untrusted" : "failed";
  }
}
