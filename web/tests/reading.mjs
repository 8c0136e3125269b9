// Reads frames with the code and the wasm of the phone's worker. On standard input: for each frame one line
// of JSON, {width, height}, and as many bytes of grey. On standard output, for each: one line of JSON, what
// the reader sees in the frame by each way that the phone turns to, and how long each took.
import { readFile } from "node:fs/promises";
import { createServer } from "vite";

const NEWLINE = 10;
const ROOT = new URL("..", import.meta.url).pathname;

async function* framesOf(input) {
  let kept = Buffer.alloc(0);
  let asked = null;
  const chunks = [];
  let length = 0;
  for await (const chunk of input) {
    chunks.push(chunk);
    length += chunk.length;
    const wanted = asked ? asked.width * asked.height : 1;
    if (length < wanted) continue;
    kept = Buffer.concat(chunks);
    while (true) {
      if (!asked) {
        const end = kept.indexOf(NEWLINE);
        if (end < 0) break;
        asked = JSON.parse(kept.subarray(0, end).toString());
        kept = kept.subarray(end + 1);
      }
      const size = asked.width * asked.height;
      if (kept.length < size) break;
      yield { ...asked, grey: kept.subarray(0, size) };
      kept = kept.subarray(size);
      asked = null;
    }
    chunks.length = 0;
    chunks.push(kept);
    length = kept.length;
  }
}

/** The frame as a canvas gives it. */
function asCanvas({ width, height, grey }) {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let pixel = 0, at = 0; pixel < grey.length; pixel += 1, at += 4) {
    data.fill(grey[pixel], at, at + 3);
    data[at + 3] = 255;
  }
  return { data, width, height };
}

const server = await createServer({
  root: ROOT,
  logLevel: "error",
  appType: "custom",
  server: { middlewareMode: true, ws: false },
});
const { codesIn, loadReader, WAYS } = await server.ssrLoadModule(
  "/src/screens/porter/camera/reader.ts",
);
const wasm = await readFile(`${ROOT}node_modules/zxing-wasm/dist/reader/zxing_reader.wasm`);
await loadReader({ bytes: wasm });

async function read(frame, way) {
  const canvas = asCanvas(frame);
  const began = performance.now();
  const seen = await codesIn(canvas, way);
  return { texts: seen.map(({ text }) => text), took: performance.now() - began };
}

for await (const frame of framesOf(process.stdin)) {
  const told = {};
  for (const way of Object.keys(WAYS)) told[way] = await read(frame, way);
  process.stdout.write(`${JSON.stringify(told)}\n`);
}
await server.close();
