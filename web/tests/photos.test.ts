import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { fitting, LONGER, MOST, scaled } from "../src/door/photos/scaled";

describe("the size of a picture", () => {
  it.each([
    [
      { width: 4000, height: 3000 },
      { width: LONGER, height: 960 },
    ],
    [
      { width: 3000, height: 4000 },
      { width: 960, height: LONGER },
    ],
    [
      { width: 1280, height: 720 },
      { width: 1280, height: 720 },
    ],
    [
      { width: 20, height: 10 },
      { width: 20, height: 10 },
    ],
    [
      { width: 9000, height: 1 },
      { width: LONGER, height: 1 },
    ],
  ])("%o is kept as %o", (seen, kept) => {
    expect(scaled(seen)).toEqual(kept);
  });
  it("is drawn worse only until it is small enough", async () => {
    const asked: number[] = [];
    const draw = (bytes: (quality: number) => number) => async (quality: number) => {
      asked.push(quality);
      return new Blob([new Uint8Array(bytes(quality))]);
    };
    expect((await fitting(draw(() => MOST)))?.size).toBe(MOST);
    expect(asked).toHaveLength(1);
    const fits = await fitting(draw((quality) => Math.round(quality * 2 * MOST)));
    expect(fits?.size).toBeLessThanOrEqual(MOST);
    expect(asked).toEqual([...asked].sort((a, b) => b - a));
    expect(await fitting(draw(() => MOST + 1))).toBeNull();
  });
});

describe("what waits is sent", () => {
  let arrived: string[];
  let next: (() => Response)[];

  async function started() {
    vi.resetModules();
    const [keeping, sending, notTaken, { store }, line] = await Promise.all([
      import("../src/door/photos/keeping"),
      import("../src/door/photos/sending"),
      import("../src/door/photos/not_taken"),
      import("../src/door/store"),
      import("../src/door/line"),
    ]);
    return { ...keeping, ...sending, ...notTaken, store, ...line };
  }

  const refuses = (status: number, code: string) => () =>
    new Response(JSON.stringify({ status, code, detail: code }), {
      status,
      headers: { "content-type": "application/problem+json" },
    });
  const picture = (id: string) => ({ id, bytes: new Blob(["x"], { type: "image/jpeg" }) });

  beforeEach(() => {
    vi.stubGlobal("indexedDB", new IDBFactory());
    [arrived, next] = [[], []];
    const fetched = async (path: string, init: RequestInit) => {
      if (!path.startsWith("/api/pictures/")) return new Response(null, { status: 204 });
      expect((init.body as Blob).type).toBe("image/jpeg");
      const other = next.shift();
      if (other) return other();
      arrived.push(path.slice("/api/pictures/".length));
      return new Response(null, { status: 204 });
    };
    vi.stubGlobal("fetch", fetched);
    const request = (_: string, __: object, work: (lock: object) => Promise<void>) => work({});
    vi.stubGlobal("navigator", { locks: { request } });
  });

  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it("once, and stays here for three days", async () => {
    const { keep, sendPictures, store, picturesWaiting } = await started();
    await keep([picture("a"), picture("b")]);
    await vi.waitFor(() => expect(arrived).toEqual(["a", "b"]));
    await vi.waitFor(() => expect(picturesWaiting.value).toBe(0));
    await sendPictures();
    expect(arrived).toEqual(["a", "b"]);
    const open = await store();
    const [first] = await open.getAll("pictures");
    expect(first?.sentAt).not.toBeNull();
    if (first) await open.put("pictures", { ...first, sentAt: Date.now() - 3 * 86_400_000 - 1 });
    await sendPictures();
    expect((await open.getAll("pictures")).map(({ id }) => id)).toEqual(["b"]);
  });

  it("is at the house where the house says its id is taken", async () => {
    const { keep, store } = await started();
    next.push(refuses(409, "picture_taken"));
    await keep([picture("a")]);
    const open = await store();
    await vi.waitFor(async () => expect((await open.get("pictures", "a"))?.sentAt).not.toBeNull());
    expect(arrived).toEqual([]);
  });

  it.each([
    ["silence", () => Promise.reject(new TypeError("no answer")) as never],
    ["overload", refuses(503, "database_away")],
    ["a session that has ended", refuses(401, "not_signed_in")],
  ])("again after %s", async (_, answer) => {
    const { keep, sendPictures, picturesWaiting } = await started();
    next.push(answer);
    await keep([picture("a")]);
    await vi.waitFor(() => expect(next).toEqual([]));
    await vi.waitFor(() => expect(picturesWaiting.value).toBe(1));
    expect(arrived).toEqual([]);
    await vi.waitFor(async () => {
      await sendPictures();
      expect(arrived).toEqual(["a"]);
    });
    await vi.waitFor(() => expect(picturesWaiting.value).toBe(0));
  });

  it("though the house does not take the one before it, which a person looks at", async () => {
    const { keep, allNotTaken, picturesRefused, picturesWaiting, sendPictures } = await started();
    next.push(refuses(422, "picture_unreadable"));
    await keep([picture("a"), picture("b")]);
    await vi.waitFor(() => expect(arrived).toEqual(["b"]));
    await vi.waitFor(() => expect(picturesRefused.value).toBe(1));
    expect(picturesWaiting.value).toBe(0);
    await sendPictures();
    expect(arrived).toEqual(["b"]);
    expect((await allNotTaken())[0]).toMatchObject({
      id: "a",
      refused: { detail: "picture_unreadable" },
    });
  });

  describe("where it is too big for the house or what stands in front of it", () => {
    // a proxy answers in words of its own (RFC 9110, 15.5.14), not as the house would
    const tooBig = () =>
      new Response("<h1>413</h1>", { status: 413, headers: { "content-type": "text/html" } });
    const small = new Blob(["s"], { type: "image/jpeg" });
    const drawing = (drawnSmaller: () => Promise<Blob>) =>
      vi.doMock("../src/door/photos/taking", () => ({ drawnSmaller }));

    afterEach(() => vi.doUnmock("../src/door/photos/taking"));

    it("is drawn smaller and sent once more", async () => {
      drawing(async () => small);
      const { keep, store, picturesWaiting } = await started();
      next.push(tooBig);
      await keep([picture("a")]);
      await vi.waitFor(() => expect(arrived).toEqual(["a"]));
      await vi.waitFor(() => expect(picturesWaiting.value).toBe(0));
      expect(await (await (await store()).get("pictures", "a"))?.bytes.text()).toBe("s");
    });

    it("is told in words after that, and neither sent for ever nor lost", async () => {
      drawing(async () => small);
      const { keep, allNotTaken, putAway, sendAgain, sendPictures, ...line } = await started();
      next.push(tooBig, tooBig);
      await keep([picture("a"), picture("b")]);
      await vi.waitFor(() => expect(line.picturesRefused.value).toBe(1));
      expect(arrived).toEqual(["b"]);
      await sendPictures();
      expect(arrived).toEqual(["b"]);
      const [kept] = await allNotTaken();
      expect(kept?.refused?.detail).toContain("too big");
      expect(kept?.refused?.todo).toContain("in words");
      next.push(tooBig);
      if (kept) await sendAgain(kept);
      expect(next).toEqual([]);
      expect(line.picturesRefused.value).toBe(1);
      if (kept) await sendAgain(kept);
      expect(arrived).toEqual(["b", "a"]);
      expect([line.picturesRefused.value, line.picturesWaiting.value]).toEqual([0, 0]);
      next.push(tooBig, tooBig);
      await keep([picture("c")]);
      await vi.waitFor(() => expect(line.picturesRefused.value).toBe(1));
      const [other] = await allNotTaken();
      if (other) await putAway(other);
      expect(line.picturesRefused.value).toBe(0);
    });

    it("is told where it cannot be drawn smaller either", async () => {
      drawing(async () => {
        // of the same life of the program
        const { Refused } = await import("../src/door/problem");
        throw new Refused({ detail: "no picture" } as never);
      });
      const { keep, picturesRefused } = await started();
      next.push(tooBig, tooBig);
      await keep([picture("a")]);
      await vi.waitFor(() => expect(picturesRefused.value).toBe(1));
    });
  });
});
