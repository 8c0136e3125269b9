import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { answering } from "../door/line";
import { returned } from "../door/pulse";

/** By then the screen that a person opened stands, in milliseconds. */
const REST = 2_000;

/**
 * A screen whose code comes after the first one stands, or at once where it is that one. Where the house is silent
 * and this device does not have it, it comes when the house answers.
 */
export function later<Props extends object>(
  bring: () => Promise<ComponentType<Props>>,
): ComponentType<Props> {
  const brought = signal<ComponentType<Props> | null>(null);
  let bringing = false;
  const load = async (): Promise<void> => {
    if (brought.peek() || bringing) return;
    bringing = true;
    try {
      brought.value = await bring();
    } catch {
      answering.value = false;
    } finally {
      bringing = false;
    }
  };
  setTimeout(() => void load(), REST);
  return function Later(props: Props) {
    useEffect(() => void load(), [returned.value]);
    const Screen = brought.value;
    if (Screen) return <Screen {...props} />;
    // now, and not after this was drawn: what this device has is there within the same frame
    void load();
    return <main class="place" id="place" tabIndex={-1} aria-busy="true" />;
  };
}
