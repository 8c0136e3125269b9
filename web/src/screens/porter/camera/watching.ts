import type { Told } from "./frame_worker";

/** How long to wait for the next frame where the browser does not tell of it, in milliseconds. */
const PAUSE = 60;

let worker: Worker | null = null;

/** The one worker that reads frames; it stays for the next visit, for loading it is what takes longest. */
export function frameWorker(): Worker {
  worker ??= new Worker(new URL("./frame_worker.ts", import.meta.url), { type: "module" });
  return worker;
}

/**
 * Have a video's frames read, one at a time, for as long as the returned function has not been called. The
 * camera's other frames are let go: what is read is always what is in front of it now.
 */
export function watch(video: HTMLVideoElement, onTold: (told: Told) => void): () => void {
  const reader = frameWorker();
  let isOver = false;
  const next = () => {
    if (isOver) return;
    if ("requestVideoFrameCallback" in video) video.requestVideoFrameCallback(() => void send());
    else setTimeout(() => void send(), PAUSE);
  };
  const send = async () => {
    if (isOver) return;
    if (video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA || video.videoWidth === 0) {
      setTimeout(next, PAUSE);
      return;
    }
    try {
      const picture = await createImageBitmap(video);
      reader.postMessage({ picture }, [picture]);
    } catch (error) {
      // a video that has just been stopped has no picture any more
      if (!(error instanceof DOMException)) throw error;
      setTimeout(next, PAUSE);
    }
  };
  const heard = (event: MessageEvent<Told>) => {
    if (isOver) return;
    onTold(event.data);
    next();
  };
  reader.addEventListener("message", heard);
  next();
  return () => {
    isOver = true;
    reader.removeEventListener("message", heard);
  };
}
