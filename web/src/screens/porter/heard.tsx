import { signal } from "@preact/signals";

/** What became of a code that the camera read, in a word or two. */
export interface Heard {
  kind: "known" | "which" | "unknown";
  words: string;
}

const SHOWN = 1_600;

const heard = signal<Heard | null>(null);
let fades: ReturnType<typeof setTimeout> | undefined;

/** Show for a moment, across the whole screen, what became of a code. */
export function show(what: Heard): void {
  clearTimeout(fades);
  heard.value = what;
  fades = setTimeout(() => {
    heard.value = null;
  }, SHOWN);
}

const FORMS = { known: "M2 9l4 4 8-10", which: "M8 3v6M8 12v2", unknown: "M3 3l10 10M13 3L3 13" };

/** The word for the last code, in a colour and with a form: over whatever screen stands by then. */
export function HeardWord() {
  const what = heard.value;
  return (
    <div class={`heard ${what?.kind ?? ""}`} role="status">
      {what && (
        <>
          <svg width="28" height="28" viewBox="0 0 16 16" aria-hidden="true">
            <path d={FORMS[what.kind]} fill="none" stroke="currentColor" stroke-width="2.5" />
          </svg>
          <strong>{what.words}</strong>
        </>
      )}
    </div>
  );
}
