import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";

/** By then the screen that a person opened stands, in milliseconds. */
const REST = 2_000;

/** A screen that comes later; whoever knows that it is next has it brought before it is shown. */
export type Later<Props> = ComponentType<Props> & { bring: () => Promise<void> };

/**
 * A screen whose code comes after the first one stands, or at once where it is that one. Where the house is silent
 * and this device does not have it, the page starts anew when the house answers.
 */
export function later<Props extends object>(
  bring: () => Promise<ComponentType<Props>>,
): Later<Props> {
  const brought = signal<ComponentType<Props> | null>(null);
  const load = async (): Promise<void> => {
    if (brought.peek()) return;
    brought.value = await bring().catch(() => null);
  };
  setTimeout(() => void load(), REST);
  function Screen(props: Props) {
    useEffect(() => void load(), []);
    const Brought = brought.value;
    if (Brought) return <Brought {...props} />;
    return <main class="place" id="place" tabIndex={-1} aria-busy="true" />;
  }
  return Object.assign(Screen, { bring: load });
}
