import { beforeEach, expect, test, vi } from "vitest";
import type { Command } from "../src/door/command";
import type { Wire } from "../src/door/wire";
import { deeds, doingAt } from "../src/parts/doing";

type Given = Wire["Answer"];

const MILK = { batch: "B-0001", quantity: "500 ml", area: "Cold room" };

/** What the house was given, and what it says to the next of it instead of applying it. */
const sent: Command[] = [];
const next: (Partial<Given> | "silence")[] = [];

beforeEach(() => {
  deeds.value = [];
  sent.length = 0;
  vi.stubGlobal("fetch", (_: string, { body }: RequestInit) => {
    const [command] = JSON.parse(String(body)) as [Command];
    sent.push(command);
    const other = next.shift();
    if (other === "silence") return Promise.reject(new TypeError("no answer"));
    const answer = { id: command.id, outcome: "applied", position: sent.length, ...other };
    return Promise.resolve(Response.json([answer]));
  });
  vi.useFakeTimers();
});

function problem(code: string): Given["problem"] {
  return { type: "about:blank", title: "", status: 409, detail: `It is ${code}.`, code, todo: "" };
}

/** Something given, with the pauses between two tries passing at once. */
async function after<Told>(giving: Promise<Told>): Promise<Told> {
  await vi.runAllTimersAsync();
  return giving;
}

test("what was done is told in words and taken back by its own command", async () => {
  const doing = doingAt("B-0001");
  await after(doing.act("move", MILK, "Whole milk B-0001, 500 ml, to the Cold room"));
  const [deed] = deeds.value;
  expect(deed).toMatchObject({
    place: "B-0001",
    words: "Moved: Whole milk B-0001, 500 ml, to the Cold room",
    outcome: "applied",
    undone: null,
  });
  if (deed) await after(doing.undo(deed));
  expect(sent[1]).toMatchObject({ kind: "correct", body: { command: sent[0]?.id } });
  expect(deeds.value[0]?.undone).toBe("applied");
});

test("what something depends on is not taken back, and the house's words say so", async () => {
  const doing = doingAt("B-0001");
  await after(doing.act("move", MILK, ""));
  next.push({ outcome: "refused", position: 2, problem: problem("depended_on") });
  const [deed] = deeds.value;
  if (deed) await after(doing.undo(deed));
  expect(doing.problem.value?.code).toBe("depended_on");
  expect(deeds.value[0]?.undone).toBeNull();
});

test("SY3: what is only written down is told as that", async () => {
  const doing = doingAt("B-0001");
  next.push({ outcome: "kept", position: 1, problem: problem("batch_unknown") });
  await after(doing.act("move", MILK, ""));
  expect(deeds.value[0]).toMatchObject({ outcome: "kept", problem: { code: "batch_unknown" } });
  expect(doing.problem.value).toBeNull();
});

test("SY1: what was not answered is given again with its id, whatever new batch it makes", async () => {
  const doing = doingAt("B-0001");
  next.push(...Array.from({ length: 6 }, () => "silence" as const));
  const opening = { batch: "B-0001", quantity: "500 ml" };
  await after(doing.act("open", { ...opening, child: "one" }, ""));
  expect(doing.problem.value?.code).toBe("no_answer");
  expect(deeds.value).toEqual([]);
  await after(doing.act("open", { ...opening, child: "other" }, ""));
  expect(new Set(sent.map((command) => JSON.stringify(command))).size).toBe(1);
  expect(deeds.value[0]?.command).toBe(sent[0]?.id);
});
