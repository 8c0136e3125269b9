import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { prepareCodes } from "../../door/codes";
import { Button } from "../../parts/button";
import type { Heard } from "./heard";
import { Line } from "./line_later";

type Camera = typeof import("./camera/camera").Camera;
type Props = Camera extends ComponentType<infer Given> ? Given : never;

/** Whether the camera is wanted: it stays so from box to box, until it is closed. */
const isWanted = signal(false);

/** The camera with all that belongs to it, once it has been brought. */
const brought = signal<{ Camera: Camera } | null>(null);

async function bring(): Promise<void> {
  const [{ Camera }, { frameWorker }] = await Promise.all([
    import("./camera/camera"),
    import("./camera/watching"),
    // what the first code opens: once it is read, nobody waits for that screen
    Line.bring(),
  ]);
  void prepareCodes();
  frameWorker();
  brought.value = { Camera };
}

/** The key that opens the camera, and the camera in its place. */
export function CameraKey({ onCode }: { onCode: (text: string) => Promise<Heard> }) {
  useEffect(() => {
    if (isWanted.value && !brought.value) void bring();
  }, [isWanted.value]);
  const open = async () => {
    isWanted.value = true;
    // a browser gives sound only after a tap
    const { readySound } = await import("./camera/sound");
    readySound();
  };
  if (!isWanted.value) return <Button onClick={() => void open()}>Open the camera</Button>;
  if (!brought.value) return <p role="status">Opening the camera</p>;
  const { Camera } = brought.value;
  const props: Props = {
    onCode,
    onClose: () => {
      isWanted.value = false;
    },
  };
  return <Camera {...props} />;
}
