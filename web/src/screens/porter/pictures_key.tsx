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

interface PicturesKeyProps {
  taken: Signal<Taken[]>;
  /** What they show, in a word or two. */
  of?: string;
}

/** Pictures of the goods in hand, or of something else. */
export function PicturesKey({ taken, of = "What came" }: PicturesKeyProps) {
  useEffect(() => void bring(), [returned.value]);
  const Brought = brought.value?.Pictures;
  return Brought ? <Brought taken={taken} of={of} /> : null;
}
