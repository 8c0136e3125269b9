import "fake-indexeddb/auto";
import { signal } from "@preact/signals";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, expect, test, vi } from "vitest";

type Taken = import("../src/door/photos/keeping").Taken;

const NAME = "/goods-in/whinhope/spinach";
const DAY = 86_400_000;

beforeEach(() => {
  vi.useRealTimers();
  globalThis.indexedDB = new IDBFactory();
});

/** A screen of a page that has just begun, and what it proposes; `put` ends once this device has kept it. */
async function opened({ fresh = false, lot = "" } = {}) {
  vi.resetModules();
  const { Draft } = await import("../src/parts/draft");
  const { draftOf } = await import("../src/door/drafts");
  const fields = { packs: signal(1), lot: signal(lot) };
  const pictures = signal<Taken[]>([]);
  const draft = new Draft(NAME, fields, pictures, fresh);
  const leave = draft.keeping();
  await draft.ready;
  const kept = async () => ({
    fields: await draftOf<{ values: object }>(NAME),
    pictures: await draftOf<{ values: object }>(`${NAME} pictures`),
  });
  return { ...fields, pictures, draft, leave, kept };
}

function picture(id: string): Taken {
  return { id, bytes: new Blob([id], { type: "image/jpeg" }) };
}

test("a picture that is not recorded yet is there again, with what was filled in, after the page was killed", async () => {
  const before = await opened();
  before.packs.value = 3;
  before.pictures.value = [picture("a")];
  before.pictures.value = [...before.pictures.value, picture("b")];
  await vi.waitFor(async () => expect((await before.kept()).pictures).not.toBeNull());
  const after = await opened();
  expect(after.packs.value).toBe(3);
  expect(after.pictures.value.map(({ id }) => id)).toEqual(["a", "b"]);
  expect(await after.pictures.value[1]?.bytes.text()).toBe("b");
  expect(after.pictures.value[0]?.bytes.type).toBe("image/jpeg");
  expect(after.draft.since.value).toBeGreaterThan(Date.now() - 60_000);
});

test("one that was taken away before it was recorded does not come back", async () => {
  const before = await opened();
  before.pictures.value = [picture("a"), picture("b")];
  before.pictures.value = before.pictures.value.filter(({ id }) => id !== "a");
  await vi.waitFor(async () => expect((await before.kept()).pictures).not.toBeNull());
  expect((await opened()).pictures.value.map(({ id }) => id)).toEqual(["b"]);
});

test("what a code says now goes before what was filled in; the pictures are there all the same", async () => {
  const before = await opened();
  before.lot.value = "L1";
  before.pictures.value = [picture("a")];
  await vi.waitFor(async () => expect((await before.kept()).pictures).not.toBeNull());
  const after = await opened({ fresh: true, lot: "L2" });
  expect(after.lot.value).toBe("L2");
  expect(after.pictures.value.map(({ id }) => id)).toEqual(["a"]);
});

test("a draft put away drops its pictures, and gives them back to who put it away by mistake", async () => {
  const before = await opened();
  before.packs.value = 3;
  before.pictures.value = [picture("a")];
  before.draft.anew();
  expect([before.packs.value, before.pictures.value]).toEqual([1, []]);
  await vi.waitFor(async () =>
    expect(await before.kept()).toEqual({ fields: null, pictures: null }),
  );
  before.draft.undo();
  expect(before.packs.value).toBe(3);
  expect(before.pictures.value.map(({ id }) => id)).toEqual(["a"]);
  await vi.waitFor(async () => expect((await before.kept()).pictures).not.toBeNull());
  before.draft.anew();
  before.leave();
  const after = await opened();
  expect([after.packs.value, after.pictures.value]).toEqual([1, []]);
  expect(after.draft.since.value).toBeNull();
});

test("what was recorded is no draft any more, whatever was emptied on the screen before", async () => {
  const before = await opened();
  before.lot.value = "L1";
  before.packs.value = 3;
  before.pictures.value = [picture("a")];
  before.packs.value = 1;
  before.pictures.value = [];
  before.draft.forget();
  const after = await opened();
  expect([after.lot.value, after.pictures.value]).toEqual(["", []]);
});

test("opening it again does not make it newer, and after three days it is about other goods", async () => {
  vi.useFakeTimers({ toFake: ["Date"], now: Date.parse("2027-03-10T07:00:00Z") });
  const before = await opened();
  before.packs.value = 3;
  before.pictures.value = [picture("a")];
  await vi.waitFor(async () => expect((await before.kept()).pictures).not.toBeNull());
  vi.setSystemTime(Date.now() + 2 * DAY);
  const later = await opened();
  expect(later.draft.since.value).toBe(Date.parse("2027-03-10T07:00:00Z"));
  later.leave();
  vi.setSystemTime(Date.now() + DAY + 1);
  const after = await opened();
  expect([after.packs.value, after.pictures.value]).toEqual([1, []]);
  expect(await after.kept()).toEqual({ fields: null, pictures: null });
});
