import { afterEach, expect, test, vi } from "vitest";
import { standing } from "../src/door/device";
import { fitsAsPin } from "../src/words/pin";

afterEach(() => vi.unstubAllGlobals());

test.each(["4831", "270413", "00000001", "1357"])("SY13 %s is a PIN", (pin) => {
  expect(fitsAsPin(pin)).toBe(true);
});

// the same as the house refuses: tests/http/test_devices.py
test.each(["123", "1111", "1234", "9876", "12a4", "123456789", "٣٤٥٧"])(
  "SY13 %s is no PIN",
  (pin) => {
    expect(fitsAsPin(pin)).toBe(false);
  },
);

function refused(status: number, code: string): void {
  vi.stubGlobal("fetch", () =>
    Promise.resolve(
      new Response(JSON.stringify({ status, code, detail: code }), {
        status,
        headers: { "content-type": "application/problem+json" },
      }),
    ),
  );
}

test("a browser is none of the house's devices, or was taken out, or the house says more", async () => {
  refused(401, "device_not_known");
  expect(await standing()).toEqual({ device: null, takenOut: null });
  refused(403, "device_taken_out");
  expect((await standing()).takenOut?.detail).toContain("taken out of the house");
  refused(503, "overloaded");
  await expect(standing()).rejects.toThrow("overloaded");
});
