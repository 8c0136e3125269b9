/** What the house refuses, as it comes over the wire (RFC 9457, with our stable code beside it). */
export interface Fault {
  file: string;
  row: number;
  column: string;
  value: string;
  code: string;
  problem: string;
  todo: string;
}

export interface Problem {
  title: string;
  status: number;
  detail: string;
  code: string;
  todo: string;
  value?: string;
  field?: string;
  faults?: Fault[];
}

/** Something that was asked and refused; carries the whole problem. */
export class Refused extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.detail);
    this.problem = problem;
  }
}

/** What is said where the house does not answer at all. */
export const SILENCE: Problem = {
  title: "no answer",
  status: 0,
  detail: "The house does not answer.",
  code: "no_answer",
  todo: "Check that this device is on the house's network; it is tried again by itself.",
};

/** The problem in whatever went wrong; a fault of this program is not hidden behind a sentence. */
export function problemOf(error: unknown): Problem {
  if (error instanceof Refused) return error.problem;
  if (error instanceof TypeError) return SILENCE;
  throw error;
}
