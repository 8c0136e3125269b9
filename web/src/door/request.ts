import { answering } from "./line";
import { type Problem, Refused } from "./problem";

/** Called when the house no longer knows who is asking. */
let onStranger: () => void = () => {};

export function whenStranger(tell: () => void): void {
  onStranger = tell;
}

/**
 * Ask the house something.
 *
 * Throws `Refused` with the house's own problem, or `TypeError` where nothing answers.
 */
export async function ask<T>(path: string, sent?: unknown): Promise<T> {
  const init: RequestInit = { credentials: "same-origin", headers: { accept: "application/json" } };
  if (sent instanceof FormData) {
    init.method = "POST";
    init.body = sent;
  } else if (sent !== undefined) {
    init.method = "POST";
    init.body = JSON.stringify(sent);
    init.headers = { accept: "application/json", "content-type": "application/json" };
  }
  let reply: Response;
  try {
    reply = await fetch(path, init);
  } catch (error) {
    answering.value = false;
    throw error;
  }
  answering.value = true;
  if (reply.status === 204) return undefined as T;
  if (reply.ok) return (await reply.json()) as T;
  const problem = await problemIn(reply);
  if (reply.status === 401 && problem.code === "not_signed_in") onStranger();
  throw new Refused(problem);
}

async function problemIn(reply: Response): Promise<Problem> {
  const isProblem = reply.headers.get("content-type")?.startsWith("application/problem+json");
  if (isProblem) return (await reply.json()) as Problem;
  return {
    type: "about:blank",
    title: "unexpected",
    status: reply.status,
    detail: `The house answered with ${reply.status} and no reason.`,
    code: "unexpected",
    todo: "Try once more; if it stays so, tell whoever looks after the program.",
  };
}
