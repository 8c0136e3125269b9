import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Command } from "../src/door/command";
import type { Wire } from "../src/door/wire";

const DEVICE = "phone-1";
const TIME = "2027-03-10T07:40:00Z";

type Sent = Wire["Exchange"];
type Told = Partial<Wire["Exchanged"]>;

/** A house that answers exchanges: what it was sent, and what it says next. */
class House {
  readonly sent: Sent[] = [];
  private position = 0;
  epoch = "one";
  backedUp = 0;
  /** What it says to the next exchanges instead of the usual. */
  readonly next: ((sent: Sent) => Response | Promise<Response>)[] = [];

  answer = (path: string, init: RequestInit): Promise<Response> => {
    expect(path).toBe("/api/exchange");
    const sent = JSON.parse(String(init.body)) as Sent;
    this.sent.push(sent);
    const other = this.next.shift();
    return Promise.resolve(other ? other(sent) : this.takes(sent));
  };

  /** It applies all of it. */
  takes = (sent: Sent, more: Told = {}): Response => {
    const answers = (sent.commands ?? []).map(({ id }) => {
      this.position += 1;
      return { id, outcome: "applied", position: this.position } as const;
    });
    return this.says({ answers, ...more });
  };

  says = (more: Told): Response =>
    Response.json({
      epoch: this.epoch,
      answers: [],
      changes: [],
      cursor: 3,
      backed_up: this.backedUp,
      server_time: TIME,
      ...more,
    });
}

let house: House;

/** The program as it starts: every module anew, over what the device kept. */
async function started() {
  vi.resetModules();
  const [saving, sending, entries, store, giving, line] = await Promise.all([
    import("../src/door/outbox/saving"),
    import("../src/door/outbox/sending"),
    import("../src/door/outbox/entries"),
    import("../src/door/store"),
    import("../src/door/outbox/giving_from_device"),
    import("../src/door/line"),
  ]);
  await (await store.store()).put("device", DEVICE, "outbox of");
  await entries.look();
  return { ...saving, ...sending, ...entries, ...store, ...giving, ...line };
}

function command(id: string, kind: Command["kind"] = "waste"): Command {
  const body = { service: "2027-03-10/dinner/family" };
  return { id, kind, at: TIME, person: "Calum Whin", body } as unknown as Command;
}

function problem(status: number, code: string): Wire["Problem"] {
  return { type: "", title: "", status, detail: code, code, todo: "" } as Wire["Problem"];
}

function refuses(status: number, code: string): Response {
  const body = JSON.stringify(problem(status, code));
  return new Response(body, { status, headers: { "content-type": "application/problem+json" } });
}

const numbers = (sent: Sent | undefined) => sent?.commands?.map(({ n }) => n);

beforeEach(() => {
  vi.stubGlobal("indexedDB", new IDBFactory());
  house = new House();
  vi.stubGlobal("fetch", house.answer);
  let held = false;
  const request = async (_: string, __: object, work: (lock: object | null) => Promise<void>) => {
    if (held) return work(null);
    held = true;
    try {
      return await work({});
    } finally {
      held = false;
    }
  };
  vi.stubGlobal("navigator", { locks: { request } });
});

afterEach(() => {
  vi.unstubAllGlobals();
});

test("SY1: numbers have no gaps, though several pages save at once", async () => {
  const outbox = await started();
  const saved = await Promise.all(
    ["a", "b", "c", "d"].map((id) => outbox.save(command(id), DEVICE, "")),
  );
  expect(saved.map(({ n }) => n).sort()).toEqual([1, 2, 3, 4]);
});

const covers = (id: string, base?: number, service = "2027-03-12/dinner/family") =>
  ({ ...command(id, "change_covers"), base, body: { service, covers: 5 } }) as unknown as Command;

const baseOfSaved = async (saved: Promise<{ command: Command }>) => (await saved).command.base;

test("SY3: what hangs is given up by whoever says to send now, and goes once", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  const answer = house.answer;
  let hung = 0;
  vi.stubGlobal("fetch", (path: string, init: RequestInit) => {
    if (hung > 0) return answer(path, init);
    hung += 1;
    return new Promise((_, fail) => {
      init.signal?.addEventListener("abort", () => fail(new DOMException("", "AbortError")));
    });
  });
  const hanging = outbox.send();
  await vi.waitFor(() => expect(hung).toBe(1));
  await outbox.sendNow();
  await hanging;
  await vi.waitFor(() => expect(house.sent).toHaveLength(1));
  expect(numbers(house.sent[0])).toEqual([1]);
});

test("SY3: a decision on what one's own waiting decision changes is taken on that one", async () => {
  const outbox = await started();
  expect(await baseOfSaved(outbox.save(covers("a", 3), DEVICE, ""))).toBe(3);
  expect(await baseOfSaved(outbox.save(covers("b", 3), DEVICE, ""))).toBe("a");
  expect(await baseOfSaved(outbox.save(covers("c", 3), DEVICE, ""))).toBe("b");
  const breakfast = covers("d", 3, "2027-03-13/breakfast/family");
  expect(await baseOfSaved(outbox.save(breakfast, DEVICE, ""))).toBe(3);
  await outbox.send();
  const bases = house.sent[0]?.commands?.map(({ base }) => base);
  expect(bases).toEqual([3, "a", "b", 3]);
});

test("SY3: a menu proposed by its parts is the menu that is confirmed by its id", async () => {
  const outbox = await started();
  const service = { date: "2027-03-12", meal: "Dinner", table: "Family" };
  const proposed = { ...command("a", "propose"), body: { service, courses: [] } };
  await outbox.save(proposed as unknown as Command, DEVICE, "");
  expect(await baseOfSaved(outbox.save(covers("b"), DEVICE, ""))).toBe("a");
});

test("SY3: what was applied is the base until what is shown has it, and then what is shown", async () => {
  const outbox = await started();
  await outbox.save(covers("a", 3), DEVICE, "");
  await outbox.save(covers("b", 3), DEVICE, "");
  await outbox.send();
  expect(await baseOfSaved(outbox.save(covers("c", 3), DEVICE, ""))).toBe("b");
  await outbox.send();
  // three decisions on version 3: what shows them shows version 6
  expect(await baseOfSaved(outbox.save(covers("d", 5), DEVICE, ""))).toBe("c");
  await outbox.send();
  expect(await baseOfSaved(outbox.save(covers("e", 7), DEVICE, ""))).toBe(7);
});

test("SY3: what was in conflict is no base of what is decided after it", async () => {
  const outbox = await started();
  await outbox.save(covers("a", 3), DEVICE, "");
  house.next.push(() =>
    house.says({
      answers: [{ id: "a", outcome: "conflict", position: 9, problem: problem(409, "base_moved") }],
    }),
  );
  await outbox.send();
  expect(await baseOfSaved(outbox.save(covers("b", 4), DEVICE, ""))).toBe(4);
});

test("SY3: a fact, and a decision of another device's outbox, are no base", async () => {
  const outbox = await started();
  await outbox.save(covers("a", 3), "an earlier life", "");
  expect(await baseOfSaved(outbox.save(covers("b", 3), DEVICE, ""))).toBe(3);
  expect(await baseOfSaved(outbox.save(command("c"), DEVICE, ""))).toBeUndefined();
});

test("SY1: what was saved is never saved as another", async () => {
  const outbox = await started();
  const first = await outbox.save(command("a"), DEVICE, "");
  expect(await outbox.save(command("a"), DEVICE, "")).toEqual(first);
  expect(outbox.entries.value).toHaveLength(1);
});

test("SY4: what was saved is there after the browser was killed, and goes in order", async () => {
  const before = await started();
  await before.save(command("a"), DEVICE, "");
  await before.save(command("b"), DEVICE, "");
  const after = await started();
  expect(after.unsent.value.map(({ id }) => id)).toEqual(["a", "b"]);
  await after.send();
  expect(numbers(house.sent[0])).toEqual([1, 2]);
  expect(after.unsent.value).toEqual([]);
});

test("SY2: where the answer was lost the same bytes are sent again", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  house.next.push((sent) => {
    house.takes(sent);
    return Promise.reject(new TypeError("the line broke"));
  });
  await outbox.send();
  expect(outbox.unsent.value).toHaveLength(1);
  await outbox.send();
  expect(house.sent[1]?.commands).toEqual(house.sent[0]?.commands);
  expect(outbox.unsent.value).toEqual([]);
});

test("SY4: a session that has ended, a fault of the house and overload take nothing away", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  for (const status of [401, 429, 500, 503]) {
    house.next.push(() => refuses(status, "not_now"));
    await outbox.send();
    expect(outbox.unsent.value).toHaveLength(1);
    expect(outbox.stuck.value).toBeNull();
  }
});

test("SY4: what is refused as a whole is said, and nothing is lost", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  house.next.push(() => refuses(400, "protocol_unknown"));
  await outbox.send();
  expect(outbox.stuck.value?.code).toBe("protocol_unknown");
  expect(outbox.unsent.value).toHaveLength(1);
  await outbox.send();
  expect(outbox.stuck.value).toBeNull();
  expect(outbox.unsent.value).toEqual([]);
});

test("SY2: a number that the house knows of another command is said, and what waits stays", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  house.next.push(() =>
    house.says({
      answers: [
        { id: "a", outcome: "refused", position: null, problem: problem(409, "device_cloned") },
      ],
    }),
  );
  await outbox.send();
  expect(outbox.stuck.value?.code).toBe("device_cloned");
  expect(outbox.unsent.value).toHaveLength(1);
});

test("SY4: what was refused or is in conflict waits for a person, until it is put away", async () => {
  const outbox = await started();
  const saved = await outbox.save(command("a", "confirm"), DEVICE, "");
  house.next.push(() =>
    house.says({
      answers: [{ id: "a", outcome: "conflict", position: 8, problem: problem(409, "base_moved") }],
    }),
  );
  await outbox.send();
  expect(outbox.unsent.value).toEqual([]);
  expect(outbox.parked.value.map(({ id }) => id)).toEqual(["a"]);
  await outbox.settle(saved);
  expect(outbox.parked.value).toEqual([]);
});

test("SY7: what the house has is held until a verified backup has it", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  await outbox.save(command("b"), DEVICE, "");
  await outbox.send();
  expect(outbox.entries.value).toHaveLength(2);
  house.backedUp = 1;
  await outbox.send();
  expect(outbox.entries.value.map(({ id }) => id)).toEqual(["b"]);
});

test("SY7: what nobody has looked at yet is held, whatever a backup has", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  house.next.push(() =>
    house.says({
      answers: [{ id: "a", outcome: "kept", position: 1, problem: problem(404, "area_unknown") }],
    }),
  );
  house.backedUp = 9;
  await outbox.send();
  await outbox.send();
  expect(outbox.parked.value).toHaveLength(1);
});

test("SY7: a restored house is handed all that is held, with its answers, then gets what is new", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  await outbox.send();
  house.epoch = "two";
  await outbox.save(command("b"), DEVICE, "");
  const waits = { hand_in: true, awaited: 1 };
  house.next.push(() => house.says({ restored: waits }));
  house.next.push(() => house.says({}));
  await outbox.send();
  const held = house.sent.at(-2)?.held;
  expect(held?.first).toBe(1);
  expect(held?.complete).toBe(true);
  expect(held?.commands?.map(({ epoch, answer }) => [epoch, answer?.position])).toEqual([
    ["one", 1],
  ]);
  expect(numbers(house.sent.at(-1))).toEqual([1, 2]);
  expect(outbox.unsent.value).toEqual([]);
  expect(outbox.restored.value).toBeNull();
});

test("SY7: while the house waits for other devices nothing new is given and nothing is lost", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  const waits = () => house.says({ restored: { hand_in: false, awaited: 2 } });
  house.next.push(waits, waits);
  await outbox.send();
  expect(outbox.restored.value?.awaited).toBe(2);
  expect(outbox.unsent.value).toHaveLength(1);
});

test("SY11: the house is told how many were made, and whose they are", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  await outbox.send();
  expect(house.sent[0]).toMatchObject({ device: DEVICE, made: 1, protocol: 1, epoch: "" });
  await outbox.send();
  expect(house.sent[1]).toMatchObject({ epoch: "one", cursor: 3, commands: [] });
});

test("SY4: a fact is saved at once, and a decision is answered where the house answers", async () => {
  const outbox = await started();
  expect((await outbox.giveFrom(DEVICE, command("a"), "")).outcome).toBe("saved");
  const decided = await outbox.giveFrom(DEVICE, command("b", "confirm"), "");
  expect(decided.outcome).toBe("applied");
});

test("SY4: a decision without the house is saved, and nobody waits for it", async () => {
  const outbox = await started();
  house.next.push(() => Promise.reject(new TypeError("silence")));
  expect((await outbox.giveFrom(DEVICE, command("a", "confirm"), "")).outcome).toBe("saved");
});

test("SY8: a command says how far its clock is off, and how well that is known", async () => {
  const outbox = await started();
  await outbox.send();
  const { command: made } = await outbox.save(command("a"), DEVICE, "");
  const { clock } = made as unknown as { clock: { offset_ms: number; bound_ms: number } };
  const right = Date.parse(made.at) + clock.offset_ms;
  expect(Math.abs(right - Date.parse(TIME))).toBeLessThanOrEqual(clock.bound_ms + 1_000);
  expect(clock.bound_ms).toBeLessThan(2_000);
});

test("SY4: what is shown over an older copy is held until the copy has it, whatever a backup has", async () => {
  const outbox = await started();
  const open = await outbox.store();
  const address = "/api/reports/expected";
  await open.put("copy", { address, said: { position: 0, rows: [] }, at: 0 });
  await outbox.save(command("a"), DEVICE, "");
  house.backedUp = 9;
  await outbox.send();
  expect(outbox.entries.value).toHaveLength(1);
  await open.put("copy", { address, said: { position: 1, rows: [] }, at: 0 });
  await outbox.send();
  expect(outbox.entries.value).toEqual([]);
});

test("SY4: something that answers in the house's place takes nothing away, and it is tried again", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  const timers = vi.spyOn(globalThis, "setTimeout");
  house.next.push(() => new Response("<html>Pay here</html>", { status: 200 }));
  await outbox.send();
  expect(outbox.unsent.value).toHaveLength(1);
  expect(timers).toHaveBeenCalled();
  timers.mockRestore();
});

test("SY4: a house that says when it wants to be asked again is not asked before", async () => {
  const outbox = await started();
  await outbox.save(command("a"), DEVICE, "");
  const timers = vi.spyOn(globalThis, "setTimeout");
  const headers = { "content-type": "application/problem+json", "retry-after": "120" };
  const body = JSON.stringify(problem(503, "busy"));
  house.next.push(() => new Response(body, { status: 503, headers }));
  await outbox.send();
  expect(Number(timers.mock.calls.at(-1)?.[1])).toBeGreaterThanOrEqual(120_000);
  timers.mockRestore();
});

test("SY1: records stand in the order of their numbers, though the clock was set back", async () => {
  const outbox = await started();
  const clock = vi.spyOn(Date, "now").mockReturnValue(2_000_000);
  await outbox.save(command("a"), DEVICE, "");
  clock.mockReturnValue(1_000_000);
  await outbox.save(command("b"), DEVICE, "");
  clock.mockRestore();
  expect(outbox.entries.value.map(({ n }) => n)).toEqual([1, 2]);
});

test("SY4: where the phone cannot save, it says so and nothing is said to be kept", async () => {
  const outbox = await started();
  const open = await outbox.store();
  vi.spyOn(open, "transaction").mockImplementation(() => {
    throw new DOMException("no room", "QuotaExceededError");
  });
  const given = await outbox.giveFrom(DEVICE, command("a"), "");
  expect([given.outcome, given.problem?.code]).toEqual(["refused", "not_saved"]);
  expect(house.sent).toEqual([]);
});
