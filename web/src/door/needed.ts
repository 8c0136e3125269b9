import { effect } from "@preact/signals";
import { keepsCopy } from "./copy";
import { answering } from "./line";
import { position } from "./news";
import { returned } from "./pulse";
import { renew } from "./reports";
import type { ReportName } from "./rows";
import { mayRead, me } from "./session";

/** How many days the line of the next days shows. */
export const DAYS_AHEAD = 7;

/** What a person at work without the house looks at, what is needed first first; of it, what their role is told. */
const NEEDED: readonly (readonly [ReportName, Record<string, string>])[] = [
  ["expected", {}],
  ["items", {}],
  ["stock", {}],
  ["house", {}],
  ["counts", {}],
  ["temperatures", {}],
  ["cooling", {}],
  ["checks", {}],
  ["morning", {}],
  ["pull", {}],
  ["pick", {}],
  ["preparations", { days: String(DAYS_AHEAD) }],
  ["serving", {}],
  ["days", { days: String(DAYS_AHEAD) }],
  ["questions", {}],
  ["asked-for", {}],
  ["menus", {}],
  ["dishes", {}],
  ["use-first", {}],
];

/** How long the house must have been quiet, in milliseconds: a delivery changes it line by line. */
const QUIET = 3_000;

async function renewAll(): Promise<void> {
  for (const [name, args] of NEEDED) {
    if (answering.value && mayRead(name)) await renew(name, args);
  }
}

/** Keep this device's copy whole and fresh, for as long as it keeps one. */
export function keepNeeded(): void {
  effect(() => {
    position.value;
    returned.value;
    if (!me.value || !keepsCopy(me.value)) return;
    const timer = setTimeout(() => void renewAll(), QUIET);
    return () => clearTimeout(timer);
  });
}
