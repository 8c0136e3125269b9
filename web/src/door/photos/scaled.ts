/** The longer side of a picture, in pixels: what a date on a pack can be read on. */
export const LONGER = 1280;

/** Bytes of one picture: the house takes no more. */
export const MOST = 1_000_000;

/** The longer side and the bytes of one that was too big for whatever stands in front of the house. */
export const SMALLER = 640;
export const LEAST = 100_000;

/** How well a picture is drawn, as a share of one, from the best; a worse one only where it is too large. */
const QUALITIES = [0.85, 0.7, 0.55, 0.4, 0.25];

export interface Size {
  width: number;
  height: number;
}

/** The size that a picture is kept in, in pixels; a small one stays as it is. */
export function scaled({ width, height }: Size, longer = LONGER): Size {
  const share = Math.min(1, longer / Math.max(width, height));
  const side = (length: number) => Math.max(1, Math.round(length * share));
  return { width: side(width), height: side(height) };
}

/** The best drawing that is not too large; null where even the worst one is. */
export async function fitting(
  draw: (quality: number) => Promise<Blob>,
  most = MOST,
): Promise<Blob | null> {
  for (const quality of QUALITIES) {
    const drawn = await draw(quality);
    if (drawn.size <= most) return drawn;
  }
  return null;
}
