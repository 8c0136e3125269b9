/** What a frame of dim light is turned into, so that the bars of a long code stand apart again. */

/** A frame as a canvas gives it: four bytes a pixel. */
export interface Frame {
  data: Uint8ClampedArray;
  width: number;
  height: number;
}

/** Of a hundred pixels, how many may become wholly black, and how many wholly white. */
const CLIPPED = 1;

/**
 * The frame in grey, smoothed by a Gaussian of about one pixel (1 2 1 both ways) and stretched from its dark
 * to its light: noise between two bars is what a reader fails at, and darkness alone is not. Done by hand, for
 * not every browser's canvas has filters. The frame itself is changed.
 */
export function cleared(frame: Frame): Frame {
  const grey = smoothed(greyOf(frame), frame.width, frame.height);
  const levels = stretched(grey);
  const { data } = frame;
  for (let pixel = 0, at = 0; pixel < grey.length; pixel += 1, at += 4) {
    const level = levels[grey[pixel] ?? 0] ?? 0;
    data[at] = level;
    data[at + 1] = level;
    data[at + 2] = level;
  }
  return frame;
}

/** Brightness, in 256 steps; the weights of ITU-R BT.601 in parts of 256. */
function greyOf({ data, width, height }: Frame): Uint8Array {
  const grey = new Uint8Array(width * height);
  for (let pixel = 0, at = 0; pixel < grey.length; pixel += 1, at += 4) {
    const [red = 0, green = 0, blue = 0] = [data[at], data[at + 1], data[at + 2]];
    grey[pixel] = (77 * red + 150 * green + 29 * blue) >> 8;
  }
  return grey;
}

function smoothed(grey: Uint8Array, width: number, height: number): Uint8Array {
  const across = new Uint16Array(grey.length);
  for (let row = 0; row < height; row += 1) {
    const start = row * width;
    const end = start + width - 1;
    for (let at = start; at <= end; at += 1) {
      const here = grey[at] ?? 0;
      const left = at > start ? (grey[at - 1] ?? 0) : here;
      const right = at < end ? (grey[at + 1] ?? 0) : here;
      across[at] = left + 2 * here + right;
    }
  }
  const last = grey.length - width;
  for (let at = 0; at < grey.length; at += 1) {
    const here = across[at] ?? 0;
    const above = at >= width ? (across[at - width] ?? 0) : here;
    const below = at < last ? (across[at + width] ?? 0) : here;
    grey[at] = (above + 2 * here + below + 8) >> 4;
  }
  return grey;
}

/** What each level becomes: from the first level that is not rare to the last, all of black to white. */
function stretched(grey: Uint8Array): Uint8Array {
  const counts = new Uint32Array(256);
  for (let pixel = 0; pixel < grey.length; pixel += 1) {
    const level = grey[pixel] ?? 0;
    counts[level] = (counts[level] ?? 0) + 1;
  }
  const rare = (grey.length * CLIPPED) / 100;
  const [dark, light] = [reached(counts, rare, 0, 1), reached(counts, rare, 255, -1)];
  const range = Math.max(1, light - dark);
  return Uint8Array.from({ length: 256 }, (_, level) =>
    Math.min(255, Math.max(0, Math.round(((level - dark) * 255) / range))),
  );
}

function reached(counts: Uint32Array, rare: number, from: number, step: number): number {
  let [level, sum] = [from, counts[from] ?? 0];
  while (sum <= rare && level + step >= 0 && level + step <= 255) {
    level += step;
    sum += counts[level] ?? 0;
  }
  return level;
}
