import type { BodyOf } from "../../../door/command";
import { less, plus, sign, times } from "../../../door/sums";
import { type Draft, type Entry, type Line, stood } from "./sheet";

/** What is to be asked of a line before the count is recorded. */
export type Asks = "taken_out" | "again" | "why";

/** A line that was found otherwise than the books have it. */
export interface Difference {
  line: Line;
  entry: Entry;
  /** What the books have there. */
  stood: string;
  /** Found less stood: below nothing where something is missing. */
  by: string;
  /** What is still to be said; null where nothing is. */
  asks: Asks | null;
}

/** How close a count is held of what the house says nothing of, in percent; common practice, no source. */
const USUAL = 5;

/** The lines that were found otherwise, as this device's copy of the books has them. */
export function differences(lines: Line[], draft: Draft, area: string): Difference[] {
  return draft.entries.flatMap((entry) => {
    const line = lines.find(({ key }) => key === entry.key);
    if (!line) return [];
    const had = stood(line, area);
    const by = less(entry.found, had);
    if (sign(by) === 0) return [];
    return [{ line, entry, stood: had, by, asks: asks(line, entry, had, by) }];
  });
}

function asks(line: Line, entry: Entry, had: string, by: string): Asks | null {
  if (mayBeTakenOut(line, by)) {
    if (entry.takenOut === null) return "taken_out";
    if (entry.takenOut) return null;
  }
  if (!isFarOff(line, had, by)) return null;
  if (line.of?.closely && line.batches.length > 0 && entry.first === null && !entry.left)
    return "again";
  return "why";
}

/** Whether as much is promised for today and tomorrow as is missing: it may be in the kitchen (LG3). */
function mayBeTakenOut(line: Line, by: string): boolean {
  return sign(by) < 0 && sign(plus(promisedSoon(line), by)) >= 0;
}

function promisedSoon(line: Line): string {
  const these = new Set(line.batches.map(({ batch }) => batch));
  return (line.of?.promised_soon ?? [])
    .filter(({ batch }) => these.has(batch))
    .reduce((sum, { quantity }) => plus(sum, quantity.value), "0");
}

/** Whether a difference is further off than the tolerance of the item's class. */
function isFarOff({ of }: Line, had: string, by: string): boolean {
  const much = by.startsWith("-") ? by.slice(1) : by;
  const most = had.startsWith("-") ? "0" : times(had, of?.tolerance ?? USUAL);
  return sign(less(times(much, 100), most)) > 0;
}

/** Whether the count can be recorded: a reason is asked and may be left out. */
export function isSaid(all: Difference[]): boolean {
  return all.every(({ asks }) => asks === null || asks === "why");
}

/** The count as the house is told it, its lines in the order in which they were counted. */
export function countBody(
  area: string,
  areaName: string,
  lines: Line[],
  draft: Draft,
): BodyOf<"count"> {
  const found = differences(lines, draft, areaName);
  return {
    area,
    lines: draft.entries.flatMap((entry) => {
      const line = lines.find(({ key }) => key === entry.key);
      return line
        ? [
            lineBody(
              line,
              entry,
              found.find((each) => each.entry === entry),
            ),
          ]
        : [];
    }),
  };
}

function lineBody(line: Line, entry: Entry, differs: Difference | undefined) {
  const { unit } = line.item;
  const pieces = entry.pieces ? { pieces: entry.pieces } : {};
  const isMissing = differs !== undefined && sign(differs.by) < 0;
  // what was asked, or cannot be: more is missing than anybody was promised
  const out = isMissing && sign(promisedSoon(line)) > 0 ? (entry.takenOut ?? false) : null;
  return {
    ...(line.label === null ? { item: line.item.id } : { batch: line.key }),
    quantity: { value: entry.found, unit, ...pieces },
    ...(out === null ? {} : { taken_out: out }),
    ...(entry.first !== null ? { second: true } : line.of?.closely ? { second: false } : {}),
    ...(entry.reason ? { reason: entry.reason } : {}),
  };
}
