import { answered, answering, doubted } from "./line";
import { type Problem, Refused } from "./problem";

/** Called when the house no longer knows who is asking. */
let onStranger: () => void = () => {};

export function whenStranger(tell: () => void): void {
  onStranger = tell;
}

/** How long an answer may take, in milliseconds, before somebody looks whether the house is there at all. */
const LONG = 2_000;

/**
 * Ask the house something; give up where `until` says so.
 *
 * Throws `Refused` with the house's own problem, or `TypeError` where nothing answers.
 */
export async function ask<T>(path: string, sent?: unknown, until?: AbortSignal): Promise<T> {
  const init: RequestInit = { credentials: "same-origin", headers: { accept: "application/json" } };
  if (sent instanceof FormData || sent instanceof Blob) {
    init.method = "POST";
    init.body = sent;
  } else if (sent !== undefined) {
    init.method = "POST";
    init.body = JSON.stringify(sent);
    init.headers = { accept: "application/json", "content-type": "application/json" };
  }
  if (until) init.signal = until;
  const reply = await replyTo(path, init);
  answered();
  if (reply.status === 204) return undefined as T;
  if (reply.ok) return (await reply.json()) as T;
  const problem = await problemIn(reply);
  if (reply.status === 401 && problem.code === "not_signed_in") onStranger();
  throw new Refused(problem, Number(reply.headers.get("retry-after")) || 0);
}

async function replyTo(path: string, init: RequestInit): Promise<Response> {
  const late = setTimeout(() => {
    doubted.value += 1;
  }, LONG);
  try {
    return await fetch(path, init);
  } catch (error) {
    answering.value = false;
    // where we gave up waiting nothing answered either
    throw error instanceof TypeError ? error : new TypeError(String(error));
  } finally {
    clearTimeout(late);
  }
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
