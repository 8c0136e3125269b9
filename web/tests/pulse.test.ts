import { afterEach, expect, test, vi } from "vitest";

async function started() {
  vi.resetModules();
  const [line, pulse, request] = await Promise.all([
    import("../src/door/line"),
    import("../src/door/pulse"),
    import("../src/door/request"),
  ]);
  return { ...line, ...pulse, ...request };
}

/** A house that is out of reach: nothing answers, and nothing says that it will not. */
function outOfReach(_: string, { signal }: RequestInit): Promise<Response> {
  return new Promise((_, give) => {
    signal?.addEventListener("abort", () => give(signal.reason));
  });
}

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

test("a house that says nothing at all is found silent within seconds", async () => {
  vi.stubGlobal("fetch", outOfReach);
  const device = await started();
  void device.ask("/api/reports/stock").catch(() => undefined);
  await vi.waitFor(() => expect(device.answering.value).toBe(false), { timeout: 8_000 });
}, 10_000);

test("a house that is busy with one thing and answers another is there", async () => {
  vi.useFakeTimers();
  const knocked = vi.fn(() => Promise.resolve(Response.json({})));
  vi.stubGlobal("fetch", (path: string, init: RequestInit) =>
    path === "/api/health" ? knocked() : outOfReach(path, init),
  );
  const device = await started();
  void device.ask("/api/reports/plan");
  await vi.advanceTimersByTimeAsync(10_000);
  expect(knocked).toHaveBeenCalledOnce();
  expect(device.answering.value).toBe(true);
});
