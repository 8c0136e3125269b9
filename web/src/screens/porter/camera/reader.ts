import {
  prepareZXingModule,
  type ReaderOptions,
  type ReadResult,
  readBarcodes,
} from "zxing-wasm/reader";
import { cleared, type Frame, sharpened } from "./dim_frames";

/** What stands on packs, cases and our own labels, and nothing else: every further kind costs time. */
const OPTIONS: ReaderOptions = {
  formats: ["EAN13", "EAN8", "UPCA", "UPCE", "ITF14", "Code128", "DataMatrix", "QRCode"],
  // the separator of GS1 codes stays a character; otherwise the text comes with brackets
  textMode: "Plain",
  tryHarder: true,
  tryInvert: false,
  // so many lines across a code of bars must say the same: with fewer, one out of focus was read as another
  minLineCount: 4,
  maxNumberOfSymbols: 4,
};

/** One code that was seen in a frame. */
export interface Seen {
  /** With its symbology identifier in front, as a handheld scanner sends it (ISO/IEC 15424). */
  text: string;
  /** Where its middle lies in the frame: 0 to 1 from the left, and from the top. */
  x: number;
  y: number;
}

/** Load the reader; the wasm comes from `address`, which is this house's own. */
export async function loadReader(
  source: { address: string } | { bytes: ArrayBuffer },
): Promise<void> {
  const overrides =
    "bytes" in source ? { wasmBinary: source.bytes } : { locateFile: () => source.address };
  await prepareZXingModule({ overrides, fireImmediately: true });
}

/** What is done to a frame before it is read: each gains in one bad light what it loses in another. */
export const WAYS = {
  plain: (frame: Frame) => frame,
  cleared,
  sharpened,
};

export type Way = keyof typeof WAYS;

/** The codes in a frame, the one nearest the middle first. */
export async function codesIn(frame: Frame, way: Way): Promise<Seen[]> {
  const { data, width, height } = WAYS[way](frame);
  const image = { data, width, height, colorSpace: "srgb" as const };
  const found = await readBarcodes(image as ImageData, OPTIONS);
  return found
    .filter(({ isValid, text }) => isValid && text !== "")
    .map((result) => seen(result, width, height))
    .sort((one, other) => awayFromMiddle(one) - awayFromMiddle(other));
}

function seen({ symbologyIdentifier, text, position }: ReadResult, width: number, height: number) {
  const { topLeft, topRight, bottomLeft, bottomRight } = position;
  const corners = [topLeft, topRight, bottomLeft, bottomRight];
  const middle = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / 4;
  return {
    text: `${symbologyIdentifier}${text}`,
    x: middle(corners.map((corner) => corner.x)) / width,
    y: middle(corners.map((corner) => corner.y)) / height,
  };
}

function awayFromMiddle({ x, y }: Seen): number {
  return Math.hypot(x - 0.5, y - 0.5);
}
