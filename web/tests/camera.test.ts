import { describe, expect, it } from "vitest";
import { cleared, sharpened } from "../src/screens/porter/camera/dim_frames";
import { Repeats } from "../src/screens/porter/camera/repeats";

describe("a code before the camera is taken in once", () => {
  it("is not new while it stays in sight, however long", () => {
    const repeats = new Repeats();
    expect([0, 1_000, 2_000, 3_000].map((at) => repeats.isNew("B-1", at))).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });

  it("is relied on at once, but for a shop's number: that must be seen twice, soon", () => {
    const repeats = new Repeats();
    expect(repeats.isSure("]C0B-1", 0)).toBe(true);
    expect([0, 100, 3_000].map((at) => repeats.isSure("]E06291041500213", at))).toEqual([
      false,
      true,
      false,
    ]);
  });

  it("is new again once it was away, and so is another at any time", () => {
    const repeats = new Repeats();
    repeats.isNew("B-1", 0);
    expect(repeats.isNew("B-2", 10)).toBe(true);
    expect(repeats.isNew("B-1", 1_501)).toBe(true);
  });

  it("is not new where nobody looked in between", () => {
    const repeats = new Repeats();
    repeats.isNew("B-1", 0);
    repeats.goOn(60_000);
    expect(repeats.isNew("B-1", 60_200)).toBe(false);
  });
});

/** A grey frame of these rows of brightness. */
function frame(rows: number[][]) {
  const width = rows[0]?.length ?? 0;
  const data = Uint8ClampedArray.from(rows.flat().flatMap((level) => [level, level, level, 255]));
  return { data, width, height: rows.length };
}

const firstOf = ({ data }: { data: Uint8ClampedArray }) =>
  [...data].filter((_, at) => at % 4 === 0);

describe("a frame of dim light is cleared", () => {
  it("from its dark to its light, to all of black to white", () => {
    const dim = Array.from({ length: 8 }, () => [40, 40, 40, 40, 80, 80, 80, 80]);
    const levels = firstOf(cleared(frame(dim)));
    expect([Math.min(...levels), Math.max(...levels)]).toEqual([0, 255]);
  });

  it("smoothed, then drawn out: a lone point of noise falls to less than half of its height", () => {
    const rows = Array.from({ length: 20 }, (_, row) =>
      Array.from({ length: 20 }, (_, column) => {
        if (row < 5) return column < 10 ? 0 : 255;
        return row === 12 && column === 10 ? 164 : 100;
      }),
    );
    const levels = firstOf(cleared(frame(rows)));
    const [point = 0, beside = 0, far = 0] = [250, 251, 278].map((pixel) => levels[pixel]);
    expect(point - 100).toBeLessThan(64 / 2);
    expect(beside).toBeLessThan(point);
    expect(Math.abs(far - 100)).toBeLessThanOrEqual(2);
  });

  it("an even frame stays even", () => {
    const levels = firstOf(
      cleared(
        frame([
          [90, 90],
          [90, 90],
        ]),
      ),
    );
    expect(new Set(levels).size).toBe(1);
  });
});

describe("a frame out of focus is sharpened", () => {
  it("so that a thin line that was blurred stands out more from what is beside it", () => {
    const row = [200, 200, 200, 200, 160, 120, 160, 200, 200, 200, 200];
    const levels = firstOf(sharpened(frame(Array.from({ length: 11 }, () => row))));
    const [beside = 0, line = 0] = [levels[5 * 11 + 3], levels[5 * 11 + 5]];
    expect(line).toBe(0);
    expect(beside).toBe(255);
  });
});
