import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Wire } from "../src/door/wire";

const NOW = "2027-03-10T07:40:00Z";

function who(role: Wire["Person"]["role"], name = "Calum Whin"): Wire["Me"] {
  return {
    person: { id: name, name, role },
    house: {
      id: "ardlinnet-house",
      name: "Ardlinnet House",
      zone: "Europe/London",
      currency: "GBP",
      unit_system: "metric",
      decimal_mark: ".",
      notice: "PT72H",
    },
    now: NOW,
    epoch: "one",
    position: 7,
    may: { commands: ["receive"], reports: ["expected"] },
  } as Wire["Me"];
}

/** The program as it starts: every module anew, over what the browser kept. */
async function started() {
  vi.resetModules();
  const [session, request, copy, store, line] = await Promise.all([
    import("../src/door/session"),
    import("../src/door/request"),
    import("../src/door/copy"),
    import("../src/door/store"),
    import("../src/door/line"),
  ]);
  return { ...session, ...request, ...copy, ...store, ...line };
}

function answers(status: number, said: unknown): void {
  vi.stubGlobal("fetch", () =>
    Promise.resolve(
      new Response(JSON.stringify(said), {
        status,
        headers: { "content-type": status < 400 ? "application/json" : "application/problem+json" },
      }),
    ),
  );
}

const silent = () => vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no network")));

let device = await started();

async function signedIn(found: Wire["Me"]): Promise<void> {
  answers(200, found);
  await device.signIn(found.person.name, "kelp lantern ferry");
}

async function outboxOf(): Promise<number> {
  return (await device.store()).count("outbox");
}

beforeEach(async () => {
  device = await started();
  await device.clear();
});

afterEach(() => vi.unstubAllGlobals());

test("SY9 who came in last is known when the program starts without the house", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", { rows: [1] });
  device = await started();
  silent();
  await expect(device.recognise()).rejects.toThrow(TypeError);
  expect(device.me.value?.person.name).toBe("Calum Whin");
  expect(device.answering.value).toBe(false);
  expect(device.answeredAt.value).toBeLessThanOrEqual(Date.now());
  expect((await device.kept("/api/reports/expected"))?.said).toEqual({ rows: [1] });
});

test("SY9 the house's clock goes on from where it was, not from this device's", async () => {
  await signedIn(who("porter"));
  device = await started();
  silent();
  await expect(device.recognise()).rejects.toThrow();
  const { present } = await import("../src/door/clock");
  expect(Math.abs(present().getTime() - Date.parse(NOW))).toBeLessThan(60_000);
});

test("SY10 the copy goes with signing out, the outbox stays", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", {});
  await (await device.store()).put("outbox", { id: "a", n: 1 } as never);
  answers(200, {});
  await device.signOut();
  expect(await device.lastMe()).toBeNull();
  expect(await (await device.store()).count("copy")).toBe(0);
  expect(await outboxOf()).toBe(1);
});

test("SY10 the copy of another role goes before the next one comes in, the outbox stays", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", {});
  await (await device.store()).put("outbox", { id: "a", n: 1 } as never);
  await signedIn(who("manager", "Isobel Strang"));
  expect(await (await device.store()).count("copy")).toBe(0);
  expect(await device.lastMe()).toBeNull();
  expect(await outboxOf()).toBe(1);
});

test("SY10 a colleague of the same role finds the copy", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", {});
  await signedIn(who("porter", "Jess Orrock"));
  expect(await device.kept("/api/reports/expected")).toBeDefined();
  expect((await device.lastMe())?.me.person.name).toBe("Jess Orrock");
});

test("a desk keeps nothing of what the house says", async () => {
  await signedIn(who("manager"));
  await device.keep("/api/reports/plan", {});
  expect(await (await device.store()).count("copy")).toBe(0);
});

test("SY10 an enrolled phone keeps a copy whoever has it, since the house can revoke it", async () => {
  await signedIn({ ...who("chef"), device: { id: "one", name: "Back door phone" } });
  await device.keep("/api/reports/menus", {});
  expect(await device.kept("/api/reports/menus")).toBeDefined();
});

test("SY4 whose session ended is the first who is asked for a PIN, until they sign out", async () => {
  await signedIn(who("porter"));
  answers(401, { code: "not_signed_in", status: 401, detail: "" });
  await expect(device.ask("/api/reports/stock")).rejects.toThrow();
  await expect(device.ask("/api/reports/stock")).rejects.toThrow();
  expect(device.wasIn.value).toBe("Calum Whin");
  answers(200, {});
  await device.signOut();
  expect(device.wasIn.value).toBeNull();
});

test("a session that has ended lets nobody in without the house, and keeps the copy", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", {});
  device = await started();
  answers(401, { code: "not_signed_in", status: 401, detail: "" });
  await device.recognise();
  expect(device.me.value).toBeNull();
  await vi.waitFor(async () => expect(await device.lastMe()).toBeNull());
  expect(await (await device.store()).count("copy")).toBe(1);
});

test("SY10 the copy of a session that has ended is not for another role", async () => {
  await signedIn(who("porter"));
  await device.keep("/api/reports/expected", {});
  device = await started();
  answers(401, { code: "not_signed_in", status: 401, detail: "" });
  await device.recognise();
  await signedIn(who("chef", "Rhona Abercairn"));
  expect(await device.kept("/api/reports/expected")).toBeUndefined();
});

test("a browser that has cleared what was kept is found out", async () => {
  await signedIn(who("porter"));
  device = await started();
  await device.recognise();
  expect(device.cleared.value).toBe(false);
  await device.clear();
  device = await started();
  await device.recognise();
  expect(device.cleared.value).toBe(true);
});
