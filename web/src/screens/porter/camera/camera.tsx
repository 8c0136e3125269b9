import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Button } from "../../../parts/button";
import { type Heard, show } from "../heard";
import type { Told } from "./frame_worker";
import { Repeats } from "./repeats";
import { isLoud, sound } from "./sound";
import {
  type CameraState,
  cameraState,
  closeCamera,
  leaveCamera,
  light,
  openCamera,
  turnLight,
} from "./stream";
import { watch } from "./watching";

interface CameraProps {
  /** Takes a code in; answers what became of it. */
  onCode: (text: string) => Promise<Heard>;
  onClose: () => void;
}

/** What has been in sight, over all the screens of a visit: a box does not open its line twice. */
const repeats = new Repeats();

/** How far from the edge of the picture a code must lie to be meant, as a part of the picture. */
const EDGE = 0.06;

function isMeant({ x, y }: { x: number; y: number }): boolean {
  return Math.min(x, 1 - x, y, 1 - y) > EDGE;
}

/** The camera: it stays open between boxes, and stops when nobody looks through it. */
export function Camera({ onCode, onClose }: CameraProps) {
  const video = useRef<HTMLVideoElement>(null);
  const take = useRef(onCode);
  take.current = onCode;
  useEffect(() => {
    const visit = new Visit(video.current, (text) => take.current(text));
    void visit.begin();
    return () => visit.end();
  }, []);
  const close = () => {
    closeCamera();
    onClose();
  };
  const state = cameraState.value;
  return (
    <section class="camera stack tight" aria-label="Camera">
      <div class="picture" hidden={state !== "open" && state !== "asking"}>
        <video ref={video} playsInline muted aria-label="What the camera sees" />
        <div class="aim" aria-hidden="true" />
      </div>
      <p role="status">{WORDS[state]}</p>
      <div class="three-keys">
        {light.value !== null && <Light />}
        <Button pressed={!isLoud.value} onClick={() => (isLoud.value = !isLoud.value)}>
          Silent
        </Button>
        <Button onClick={close}>Close</Button>
      </div>
    </section>
  );
}

const BY_HAND = "Type the number below the bars, or three letters of the name.";

const WORDS: Record<CameraState, string> = {
  closed: "",
  asking: "Opening the camera",
  open: "Hold the code in front of it.",
  denied: `The camera is not allowed here; the browser's settings for this address allow it. ${BY_HAND}`,
  absent: `This device gives no camera here. ${BY_HAND}`,
  taken: `Another program has the camera. ${BY_HAND}`,
};

function Light() {
  const isBusy = useSignal(false);
  const turn = async () => {
    isBusy.value = true;
    await turnLight(!light.value).finally(() => {
      isBusy.value = false;
    });
  };
  return (
    <Button pressed={light.value === true} disabled={isBusy.value} onClick={() => void turn()}>
      Light
    </Button>
  );
}

/** One visit to the camera: from when its screen stands until it does not; hidden, it looks at nothing. */
class Visit {
  private stop: (() => void) | null = null;
  private isOver = false;
  private isTaking = false;

  constructor(
    private readonly video: HTMLVideoElement | null,
    private readonly onCode: (text: string) => Promise<Heard>,
  ) {
    document.addEventListener("visibilitychange", this.turned);
  }

  async begin(): Promise<void> {
    const stream = await openCamera();
    if (this.isOver || !stream || !this.video) return;
    this.video.srcObject = stream;
    try {
      await this.video.play();
    } catch (error) {
      // whoever leaves at once interrupts it
      if (!(error instanceof DOMException)) throw error;
      return;
    }
    if (this.isOver) return;
    repeats.goOn(performance.now());
    this.stop = watch(this.video, (told) => this.saw(told));
  }

  end(): void {
    this.isOver = true;
    document.removeEventListener("visibilitychange", this.turned);
    this.stop?.();
    leaveCamera();
  }

  private readonly turned = (): void => {
    if (document.hidden) {
      this.stop?.();
      this.stop = null;
      closeCamera();
    } else void this.begin();
  };

  private saw({ seen, took }: Told): void {
    const now = performance.now();
    const sure = seen.filter(({ text }) => repeats.isSure(text, now));
    const fresh = sure.filter(({ text }) => repeats.isNew(text, now));
    const meant = fresh.find(isMeant);
    if (!meant || this.isTaking) return;
    performance.mark("code seen", { detail: { text: meant.text, took } });
    void this.take(meant.text);
  }

  private async take(text: string): Promise<void> {
    this.isTaking = true;
    const heard = await this.onCode(text).finally(() => {
      this.isTaking = false;
    });
    show(heard);
    sound(heard.kind !== "unknown");
  }
}
