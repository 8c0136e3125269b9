import { effect, signal } from "@preact/signals";
import { laying, type Report } from "../reports";
import type { ReportName } from "../rows";
import type { Entry } from "../store";
import { entries } from "./entries";

type LaidOver = typeof import("./shown").laidOver;

/** Lays records over reports; brought after the first screen, so that it is here when the house goes silent. */
const brought = signal<{ laidOver: LaidOver } | null>(null);

/**
 * What this device shows is what the house said and its own records that the house did not have yet when it said
 * so: each is shown once, whether it waits, is on its way, or has just been answered (SY4).
 */
export function notIn(all: Entry[], position: number): Entry[] {
  return all.filter(({ answered }) => {
    if (!answered) return true;
    const { outcome, position: at } = answered.answer;
    return outcome === "applied" && (at ?? 0) > position;
  });
}

/** By then the first screen stands, in milliseconds; with a record that is here already it comes at once. */
const REST = 2_000;

/** Lay this device's own records over what the house says, for as long as the program runs. */
export function keepLaying(): void {
  setTimeout(() => void bring(), REST);
  effect(() => {
    const [all, how] = [entries.value, brought.value];
    laying.value = { lay: (name, told) => shown(name, told, all, how?.laidOver) };
  });
}

/** A report with this device's own records in it; null for the moment until they can be laid over it. */
function shown<Row>(
  name: ReportName,
  told: Report<Row>,
  all: Entry[],
  laidOver: LaidOver | undefined,
): Report<Row> | null {
  const fresh = notIn(all, told.position);
  if (fresh.length === 0) return told;
  if (laidOver) return laidOver(name, told, fresh, all);
  void bring();
  return null;
}

async function bring(): Promise<void> {
  // where it did not come, the page starts anew when the house answers
  const shown = await import("./shown").catch(() => null);
  if (shown) brought.value ??= { laidOver: shown.laidOver };
}
