import { signal } from "@preact/signals";

/** What has become of the camera; `denied`: by a person or the browser, `taken`: by another program. */
export type CameraState = "closed" | "asking" | "open" | "denied" | "absent" | "taken";

export const cameraState = signal<CameraState>("closed");

/** Whether the camera has a light of its own, and whether it burns; null where it has none. */
export const light = signal<boolean | null>(null);

let stream: MediaStream | null = null;
let isWanted = false;
let release: ReturnType<typeof setTimeout> | undefined;

/** How long a camera that nobody looks through stays open, in milliseconds: a line is filled in in less. */
const UNWATCHED = 60_000;

/** The camera that looks away from the person, with enough pixels for the bars of a long code. */
const ASKED: MediaStreamConstraints = {
  audio: false,
  video: { facingMode: "environment", width: { ideal: 1920 }, height: { ideal: 1080 } },
};

/** The camera's pictures; the same as before where it is still open. Null where there are none. */
export async function openCamera(): Promise<MediaStream | null> {
  clearTimeout(release);
  isWanted = true;
  if (stream?.active) return stream;
  cameraState.value = "asking";
  try {
    // where the connection is not safe, browsers leave it out altogether
    if (!navigator.mediaDevices) throw new DOMException("no camera", "NotFoundError");
    const given = await navigator.mediaDevices.getUserMedia(ASKED);
    if (!isWanted || document.hidden) {
      stop(given);
      return null;
    }
    stream = given;
    light.value = hasLight(given) ? false : null;
    cameraState.value = "open";
    return given;
  } catch (error) {
    cameraState.value = whyNot(error);
    return null;
  }
}

function whyNot(error: unknown): CameraState {
  if (!(error instanceof DOMException)) throw error;
  if (error.name === "NotAllowedError") return "denied";
  return error.name === "NotReadableError" ? "taken" : "absent";
}

/** Nobody looks through the camera just now; it closes if that lasts. */
export function leaveCamera(): void {
  clearTimeout(release);
  release = setTimeout(closeCamera, UNWATCHED);
}

export function closeCamera(): void {
  clearTimeout(release);
  isWanted = false;
  if (stream) stop(stream);
  stream = null;
  light.value = null;
  cameraState.value = "closed";
}

function stop(given: MediaStream): void {
  for (const track of given.getTracks()) track.stop();
}

/** Browsers know more of a camera than the types of TypeScript do. */
interface Lit {
  torch?: boolean;
}

function hasLight(given: MediaStream): boolean {
  const [track] = given.getVideoTracks();
  // not every browser tells what a camera can do
  const can = track?.getCapabilities?.() as (MediaTrackCapabilities & Lit) | undefined;
  return can?.torch === true;
}

/** Turn the camera's own light on, or off. */
export async function turnLight(on: boolean): Promise<void> {
  const lit: MediaTrackConstraintSet & Lit = { torch: on };
  const [track] = stream?.getVideoTracks() ?? [];
  await track?.applyConstraints({ advanced: [lit] });
  light.value = on;
}
