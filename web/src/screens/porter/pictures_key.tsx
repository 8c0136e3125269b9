import { type Signal, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { answering } from "../../door/line";
import type { Taken } from "../../door/photos/keeping";
import { returned } from "../../door/pulse";

/** All that belongs to taking pictures, once it has been brought: the first screen does without. */
const brought = signal<typeof import("./photos/pictures") | null>(null);

async function bring(): Promise<void> {
  try {
    brought.value ??= await import("./photos/pictures");
  } catch {
    answering.value = false;
  }
}

/** Pictures of the goods in hand. */
export function PicturesKey({ taken }: { taken: Signal<Taken[]> }) {
  useEffect(() => void bring(), [returned.value]);
  const Brought = brought.value?.Pictures;
  return Brought ? <Brought taken={taken} /> : null;
}
