import type { CountLine, CountsRow, ItemRow, StockRow } from "../../../door/rows";
import { plus } from "../../../door/sums";

/** One thing to be counted: an item, or one batch of it where batches of several dates stand there. */
export interface Line {
  /** The item's id, or the batch's. */
  key: string;
  item: ItemRow;
  /** The label of the batch, where it is counted by itself. */
  label: string | null;
  /** That batch, as long as anything of it stands by the books. */
  batch: StockRow | null;
  /** Everything of it that stands there by the books. */
  batches: StockRow[];
  /** How it is to be counted; null where the house does not expect it here. */
  of: CountLine | null;
}

/** What a person has written down of one line. */
export interface Entry {
  key: string;
  item: string;
  /** The label of the batch, where it was counted by itself. */
  label: string | null;
  /** How much was found, in the item's own unit, as decimal text. */
  found: string;
  /** How many pieces that is, of what is weighed and counted both; else empty. */
  pieces: string;
  /** What the first count had found, where this is the second. */
  first: string | null;
  /** Whether what is missing was taken out already; null: not asked. */
  takenOut: boolean | null;
  /** Whether a second count is left to somebody else. */
  left: boolean;
  /** Why it differs, in a few words; empty where nobody knows. */
  reason: string;
}

/** A count of one storage area that is not recorded yet. */
export interface Draft {
  /** In the order in which it was counted: that of the shelves. */
  entries: Entry[];
  /** Items that were found and are not expected here. */
  added: string[];
  /** Whether all of it is being counted, and not only what is due. */
  all: boolean;
}

export const EMPTY: Draft = { entries: [], added: [], all: false };

/**
 * The lines of a storage area in the order of its shelves, then what else was found. A line that was written down
 * stays as it was, though another delivery has come meanwhile.
 */
export function linesOf(row: CountsRow, stock: StockRow[], items: ItemRow[], draft: Draft): Line[] {
  const known = new Map(items.map((item) => [item.id, item]));
  const of = new Map(row.lines.map((line) => [line.item_id, line]));
  const all = [...of.keys(), ...draft.added.filter((id) => !of.has(id))];
  const lines = all.flatMap((id) => {
    const item = known.get(id);
    const batches = stock.filter((each) => each.item_id === id && row.area in each.areas);
    return item ? linesOfItem({ ...none(id, item, of), batches }, draft) : [];
  });
  // what was written down of a batch that the books have gone from there since is no less true
  const lost = draft.entries.filter((entry) => !lines.some(({ key }) => key === entry.key));
  return [
    ...lines,
    ...lost.flatMap(({ key, item: id, label }) => {
      const item = known.get(id);
      return item ? [{ ...none(id, item, of), key, label }] : [];
    }),
  ];
}

function none(id: string, item: ItemRow, of: Map<string, CountLine>): Line {
  return { key: id, item, label: null, batch: null, batches: [], of: of.get(id) ?? null };
}

function linesOfItem(whole: Line, draft: Draft): Line[] {
  if (!isByBatch(whole, draft)) return [whole];
  return whole.batches.sort(diesFirst).map((batch) => ({
    ...whole,
    key: batch.batch,
    label: batch.label,
    batch,
    batches: [batch],
  }));
}

/** The lines that are being counted now: what is due, as long as something is and nobody wants all of them. */
export function asked(lines: Line[], draft: Draft): Line[] {
  if (draft.all || !lines.some(isDue)) return lines;
  const begun = new Set([...draft.added, ...draft.entries.map(({ key }) => key)]);
  return lines.filter((line) => isDue(line) || begun.has(line.key));
}

export function isDue({ of }: Line): boolean {
  return of !== null && of.why !== null;
}

/** Batches are told apart only where it matters: where they end on different days. */
function isByBatch({ key, batches }: Line, draft: Draft): boolean {
  const before = draft.entries.find(({ item }) => item === key);
  if (before && batches.length > 0) return before.label !== null;
  return new Set(batches.map(endsOn)).size > 1;
}

const endsOn = (row: StockRow): string => row.usable_until ?? row.good_until ?? "9999";

function diesFirst(one: StockRow, other: StockRow): number {
  return endsOn(one).localeCompare(endsOn(other)) || one.label.localeCompare(other.label);
}

/** The line that an item or a batch is counted on. */
export function lineFor(lines: Line[], item: string, batch?: string): Line | undefined {
  return (
    lines.find(({ key }) => key === batch) ??
    lines.find((line) => line.item.id === item && line.label === null) ??
    lines.find((line) => line.item.id === item)
  );
}

/** The first line that nobody has counted yet, from one on. */
export function nextLine(lines: Line[], draft: Draft, after?: string): Line | undefined {
  const done = new Set(draft.entries.map(({ key }) => key));
  const from = lines.findIndex(({ key }) => key === after) + 1;
  const open = ({ key }: Line) => !done.has(key);
  return lines.slice(from).find(open) ?? lines.find(open);
}

/** The draft once a line was counted: what is counted again keeps its place, and what it was before. */
export function written(draft: Draft, line: Line, found: string, pieces: string): Draft {
  const { key, label } = line;
  const before = draft.entries.find((entry) => entry.key === key);
  const fresh = { first: null, takenOut: null, left: false, reason: "" };
  const entry = { key, item: line.item.id, label, found, pieces, ...fresh };
  if (!before) return { ...draft, entries: [...draft.entries, entry] };
  const mended = { ...entry, first: before.first };
  return { ...draft, entries: draft.entries.map((each) => (each === before ? mended : each)) };
}

/** The draft once a line was counted a second time. */
export function writtenAgain(draft: Draft, line: Line, found: string, pieces: string): Draft {
  const before = draft.entries.find((entry) => entry.key === line.key);
  const after = written(draft, line, found, pieces);
  return changed(after, line.key, { first: before?.first ?? before?.found ?? null });
}

/** The draft with something else said of a line. */
export function changed(draft: Draft, key: string, to: Partial<Entry>): Draft {
  const entries = draft.entries.map((entry) => (entry.key === key ? { ...entry, ...to } : entry));
  return { ...draft, entries };
}

/** What the books have of a line there, as far as this device knows. */
export function stood(line: Line, area: string): string {
  return line.batches.reduce((sum, row) => plus(sum, row.areas[area]?.value ?? "0"), "0");
}
