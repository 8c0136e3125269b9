import wasm from "zxing-wasm/reader/zxing_reader.wasm?url";
import { codesIn, loadReader, type Seen, type Way } from "./reader";

/** What the screen sends: one picture of the camera. */
export interface Asked {
  picture: ImageBitmap;
}

/** What comes back: what was seen in it, and how long the reader took, in milliseconds. */
export interface Told {
  seen: Seen[];
  took: number;
}

const loaded = loadReader({ address: new URL(wasm, self.location.href).href });
const canvas = new OffscreenCanvas(1, 1);
const context = canvas.getContext("2d", { willReadFrequently: true });

/** By turns; as it is before each other, since most pictures are good. */
const TURNS: Way[] = ["plain", "cleared", "plain", "sharpened"];
let turn = 0;

self.addEventListener("message", (event: MessageEvent<Asked>) => void look(event.data.picture));

async function look(picture: ImageBitmap): Promise<void> {
  await loaded;
  const { width, height } = picture;
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  context?.drawImage(picture, 0, 0);
  picture.close();
  const frame = context?.getImageData(0, 0, width, height);
  const began = performance.now();
  const seen = frame ? await codesIn(frame, TURNS[turn] ?? "plain") : [];
  // what reads goes on reading
  if (seen.length === 0) turn = (turn + 1) % TURNS.length;
  const told: Told = { seen, took: performance.now() - began };
  self.postMessage(told);
}
