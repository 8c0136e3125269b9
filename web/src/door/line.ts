import { signal } from "@preact/signals";

/** Whether the house answered last time it was asked; the browser's own word is not believed. */
export const answering = signal(true);

/** How many commands were given and are not answered yet. */
export const waiting = signal(0);
