/** What a device can do for the kitchen, in the words of the house. */
import type { Ability, WorkerGiven } from "../door/ability";

export interface Finding {
  what: string;
  /** `good`, `missing`, or `weak`: it works, and something may be lost or slow. */
  state: "good" | "missing" | "weak";
  says: string;
  todo?: string;
}

export const STATE_WORDS: Record<Finding["state"], string> = {
  good: "good",
  missing: "not possible",
  weak: "could be better",
};

const TRUST =
  "Open the page on which a phone comes to trust the house, and do what it says; whoever looks after the server knows its address.";

const WORKER: Record<WorkerGiven, Omit<Finding, "what">> = {
  standing: { state: "good", says: "The screens open without signal." },
  possible: {
    state: "good",
    says: "The browser gives it. Once the screens have been kept here, they open without signal.",
  },
  absent: {
    state: "missing",
    says: "This browser opens nothing without signal here.",
    todo: `Leave the private window, if this is one. ${TRUST}`,
  },
  untrusted: {
    state: "missing",
    says: "This device does not trust the house's certificate: somebody has gone on past a warning. All looks fine, and without signal nothing will open.",
    todo: `${TRUST} Then close every window of the house, and open it again.`,
  },
  failed: {
    state: "missing",
    says: "It could not be tried: the house did not answer, or the browser refused.",
    todo: "Look again where there is signal. If it stays so, take another browser.",
  },
};

/** What was found, one thing after the other, each with what to do about it. */
export function findings(found: Ability): Finding[] {
  return [
    found.encrypted
      ? { what: "Encrypted address", state: "good", says: "Nobody can read along." }
      : {
          what: "Encrypted address",
          state: "missing",
          says: "This address is not encrypted, so the browser gives neither camera nor work without signal.",
          todo: TRUST,
        },
    found.camera
      ? {
          what: "Camera",
          state: "good",
          says: "The browser has one to give. It asks you when you first scan.",
        }
      : {
          what: "Camera",
          state: "missing",
          says: "The browser gives no camera here.",
          todo: found.encrypted ? "Take another browser, or a scanner." : TRUST,
        },
    { what: "Work without signal", ...WORKER[found.worker] },
    found.lasting
      ? {
          what: "What is kept here",
          state: "good",
          says: "The browser has promised to throw nothing away.",
        }
      : {
          what: "What is kept here",
          state: "weak",
          says: "The browser may throw away what is kept here, when it needs room or the house has long not been opened.",
          todo: "Put the house on the home screen, open it from there, and ask the browser to keep it.",
        },
    found.locks
      ? { what: "Several windows", state: "good", says: "They take turns in sending." }
      : {
          what: "Several windows",
          state: "weak",
          says: "This browser does not let them take turns.",
          todo: "Keep only one window of the house open.",
        },
  ];
}

/** All of it in one sentence. */
export function verdict(found: Ability): { good: boolean; says: string } {
  const works = found.worker === "standing" || found.worker === "possible";
  if (works && found.camera)
    return { good: true, says: "This device can scan, and can work without signal." };
  if (works)
    return {
      good: false,
      says: "This device can work without signal, but it cannot scan by camera.",
    };
  if (found.camera)
    return { good: false, says: "This device can scan, but it will not work without signal." };
  return { good: false, says: "This device can neither scan by camera nor work without signal." };
}
