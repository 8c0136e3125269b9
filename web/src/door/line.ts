import { signal } from "@preact/signals";

/** Whether the house answered last time it was asked; the browser's own word is not believed. */
export const answering = signal(true);

/** When the house last answered anything, by this device's clock, in milliseconds; null where it never has. */
export const answeredAt = signal<number | null>(null);

/** How often an answer was so long in coming that somebody should look whether the house is there at all. */
export const doubted = signal(0);

/** How many commands were given and are not answered yet. */
export const waiting = signal(0);

/** When the first of them was saved, by this device's clock, in milliseconds. */
export const waitingSince = signal<number | null>(null);

/** How many pictures were kept on this device and are not at the house yet. */
export const picturesWaiting = signal(0);

/** How many pictures of this device were not taken, and wait for a person to look at them. */
export const picturesRefused = signal(0);

/** How many records of this device were not taken as they are, and wait for a person to look at them. */
export const toLookAt = signal(0);

/** The house has answered, whatever it said. */
export function answered(): void {
  answeredAt.value = Date.now();
  answering.value = true;
}
