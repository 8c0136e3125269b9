/** The longer side of a picture, in pixels: what a date on a pack can be read on. */
export const LONGER = 1280;

/** Bytes of one picture: the house takes no more. */
export const MOST = 1_000_000;

/** How well a picture is drawn, as a share of one, from the best; a worse one only where it is too large. */
const QUALITIES = [0.85, 0.7, 0.55, 0.4, 0.25];

export interface Size {
  width: number;
  height: number;
}

/** The size that a picture is kept in, in pixels; a small one stays as it is. */
export function scaled({ width, height }: Size): Size {
  const share = Math.min(1, LONGER / Math.max(width, height));
  const side = (length: number) => Math.max(1, Math.round(length * share));
  return { width: side(width), height: side(height) };
}

/** The best drawing that is not too large; null where even the worst one is. */
export async function fitting(draw: (quality: number) => Promise<Blob>): Promise<Blob | null> {
  for (const quality of QUALITIES) {
    const drawn = await draw(quality);
    if (drawn.size <= MOST) return drawn;
  }
  return null;
}
