import type { Wire } from "./wire";

/** What the house refuses, as it comes over the wire (RFC 9457, with our stable code beside it). */
export type Problem = Wire["Problem"];
export type Fault = Wire["FaultPart"];

/** Something that was asked and refused; carries the whole problem. */
export class Refused extends Error {
  readonly problem: Problem;
  /** In how many seconds the house wants to be asked again, where it said so. */
  readonly wait: number;

  constructor(problem: Problem, wait = 0) {
    super(problem.detail);
    this.problem = problem;
    this.wait = wait;
  }
}

/** What is said where the house does not answer at all. */
export const SILENCE: Problem = {
  type: "about:blank",
  title: "no answer",
  status: 0,
  detail: "The house does not answer.",
  code: "no_answer",
  todo: "Check that this device is on the house's network; it is tried again by itself.",
};

/** What is said where this device went silent before all of the program was on it. */
export const NOT_WHOLE: Problem = {
  type: "about:blank",
  title: "not saved",
  status: 503,
  detail: "This device does not have all of the program yet: nothing of it is saved.",
  code: "not_whole",
  todo: "Write it down, and open Chooseby again where the house answers.",
};

/** The problem in whatever went wrong; a fault of this program is not hidden behind a sentence. */
export function problemOf(error: unknown): Problem {
  if (error instanceof Refused) return error.problem;
  if (error instanceof TypeError) return SILENCE;
  throw error;
}

/** Do something; answers what was refused, or nothing where it was done. */
export async function attempted(what: () => Promise<unknown>): Promise<Problem | null> {
  try {
    await what();
    return null;
  } catch (error) {
    return problemOf(error);
  }
}
