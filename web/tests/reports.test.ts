import "fake-indexeddb/auto";
import { afterEach, expect, test, vi } from "vitest";

const TOLD = { schema: 1, house: "h", zone: "UTC", as_of: "2027-03-10T07:40:00Z", position: 7 };

/** The program as it starts, kept for a porter, with a house that says what `fetch` says. */
async function started() {
  vi.resetModules();
  const copy = await import("../src/door/copy");
  copy.keepOn();
  return {
    ...copy,
    ...(await import("../src/door/reports")),
    ...(await import("../src/door/store")),
  };
}

const silent = () => Promise.reject(new TypeError("no network"));
const says = (rows: unknown[]) => () => Promise.resolve(Response.json({ ...TOLD, rows }));

afterEach(() => vi.unstubAllGlobals());

test("SY9 what a report said is told again when the program starts without the house", async () => {
  let device = await started();
  await device.clear();
  vi.stubGlobal("fetch", says(["milk"]));
  await device.nowTold("stock");
  await vi.waitFor(async () => expect(await device.kept("/api/reports/stock")).toBeDefined());
  device = await started();
  vi.stubGlobal("fetch", silent);
  expect((await device.nowTold("stock")).rows).toEqual(["milk"]);
});

test("a report that was never told here is refused while the house is silent", async () => {
  const device = await started();
  vi.stubGlobal("fetch", silent);
  await expect(device.nowTold("items")).rejects.toThrow("does not answer");
});

test("what is kept is told at once, and what the house says takes its place", async () => {
  let device = await started();
  await device.clear();
  await device.keep("/api/reports/items", { ...TOLD, rows: ["old"] });
  device = await started();
  let answer: (reply: Response) => void = () => {};
  vi.stubGlobal(
    "fetch",
    () =>
      new Promise<Response>((told) => {
        answer = told;
      }),
  );
  expect((await device.nowTold("items")).rows).toEqual(["old"]);
  answer(Response.json({ ...TOLD, rows: ["new"] }));
  await vi.waitFor(async () => expect((await device.nowTold("items")).rows).toEqual(["new"]));
});
