/** What a frame is turned into where nothing is read in it as it is: of dim light, or out of focus. */

/** A frame as a canvas gives it: four bytes a pixel. */
export interface Frame {
  data: Uint8ClampedArray;
  width: number;
  height: number;
}

/** Of a hundred pixels, how many may become wholly black, and how many wholly white. */
const CLIPPED = 1;

/** How far the frame is smoothed to find its shades: two averages of five make a Gaussian of two pixels. */
const SHADE = 5;

/** How much of what stands out from the shades is put on top. */
const RELIEF = 2;

/**
 * The frame in grey, for dim light: smoothed by a Gaussian of one pixel, since noise between two bars is what a
 * reader fails at, then what stands out from the shades around it drawn out again, since bars that were out of
 * focus have become greyer still, and stretched from its dark to its light. Done by hand, for not every
 * browser's canvas has filters. The frame itself is changed.
 */
export function cleared(frame: Frame): Frame {
  const grey = smoothed(smoothed(greyOf(frame), frame), frame);
  const shades = averaged(averaged(grey, frame), frame);
  return inGrey(frame, drawnOut(grey, shades, RELIEF));
}

/** How often the frame is smoothed to be held against itself: a Gaussian of about one and a half pixels. */
const SMOOTHINGS = 4;

/** How much of what smoothing took away is put on top. */
const SHARPNESS = 2;

/**
 * The frame in grey, with its edges drawn sharper, for what is out of focus: what differs from the smoothed
 * frame is made to differ more. In noise it does harm. The frame itself is changed.
 */
export function sharpened(frame: Frame): Frame {
  const grey = greyOf(frame);
  const soft = Uint8Array.from(grey);
  for (let time = 0; time < SMOOTHINGS; time += 1) smoothed(soft, frame);
  return inGrey(frame, drawnOut(grey, soft, SHARPNESS));
}

/** Levels whose difference from softer ones is put on top so many times, in place. */
function drawnOut(grey: Uint8Array, soft: Uint8Array, times: number): Uint8Array {
  for (let pixel = 0; pixel < grey.length; pixel += 1) {
    const here = grey[pixel] ?? 0;
    const sharp = here + times * (here - (soft[pixel] ?? 0));
    grey[pixel] = Math.min(255, Math.max(0, sharp));
  }
  return grey;
}

/** The frame with these levels of grey, stretched from their dark to their light. */
function inGrey(frame: Frame, grey: Uint8Array): Frame {
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

/** Levels smoothed by 1 2 1 both ways, in place. */
function smoothed(grey: Uint8Array, { width, height }: Frame): Uint8Array {
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

/** Levels as the average of `SHADE` by `SHADE` around them; the edges of the frame stay as they are. */
function averaged(grey: Uint8Array, { width, height }: Frame): Uint8Array {
  const across = Uint8Array.from(grey);
  for (let row = 0; row < height; row += 1) averageOf(grey, across, row * width, 1, width);
  const both = Uint8Array.from(across);
  for (let column = 0; column < width; column += 1) {
    averageOf(across, both, column, width, height);
  }
  return both;
}

/** The running average of one line of levels, `step` apart from each other. */
function averageOf(from: Uint8Array, to: Uint8Array, start: number, step: number, count: number) {
  const reach = SHADE >> 1;
  let sum = 0;
  for (let place = 0; place < Math.min(SHADE, count); place += 1)
    sum += from[start + place * step] ?? 0;
  for (let place = reach; place < count - reach; place += 1) {
    to[start + place * step] = (sum + reach) / SHADE;
    const next = from[start + (place + reach + 1) * step] ?? 0;
    sum += next - (from[start + (place - reach) * step] ?? 0);
  }
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
