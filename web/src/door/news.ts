import { signal } from "@preact/signals";
import { answered, answering } from "./line";
import { ask } from "./request";

/** The highest journal position this device has heard of; what is shown is asked again when it moves. */
export const position = signal(0);

export function heard(at: number | null | undefined): void {
  if (at && at > position.value) position.value = at;
}

const PAUSE = 5_000;

let source: EventSource | null = null;

/** Listen for 'there is something'; the browser connects again by itself when the line breaks. */
export function listen(): void {
  source?.close();
  source = new EventSource("/api/news");
  source.addEventListener("open", () => {
    answered();
  });
  source.addEventListener("change", (event) => {
    answered();
    heard((JSON.parse(event.data) as { position: number }).position);
  });
  source.addEventListener("error", () => {
    // a reply that is no stream ends the browser's own tries: the session may be over
    if (source?.readyState === EventSource.CLOSED) setTimeout(() => void listenAgain(), PAUSE);
    else answering.value = false;
  });
}

async function listenAgain(): Promise<void> {
  if (!source) return;
  try {
    await ask("/api/me");
    listen();
  } catch {
    setTimeout(() => void listenAgain(), PAUSE);
  }
}

export function stopListening(): void {
  source?.close();
  source = null;
}
