import type { Quantity } from "../../../door/quantities";
import type { ItemRow, StockRow } from "../../../door/rows";
import { less, plus, sign } from "../../../door/sums";

/**
 * The batches of an item that may be used now: what is open before the others, then what dies first (AL1); what
 * is frozen must thaw before, and stands last.
 */
export function usable(rows: StockRow[], item: string): StockRow[] {
  return rows
    .filter((row) => row.item_id === item && row.usable && sign(onShelf(row)) > 0)
    .sort(
      (one, other) =>
        Number(one.state === "frozen") - Number(other.state === "frozen") ||
        Number(other.state === "opened") - Number(one.state === "opened") ||
        ends(one).localeCompare(ends(other)) ||
        one.label.localeCompare(other.label),
    );
}

function ends(row: StockRow): string {
  return row.usable_until ?? row.good_until ?? "9999";
}

/** What of a batch stands there and is neither on hold nor kept for an emergency, as decimal text. */
export function onShelf(row: StockRow): string {
  return less(less(row.on_hand.value, row.on_hold.value), row.emergency.value);
}

/** What of several batches may be used, together. */
export function together(rows: StockRow[]): string {
  return rows.reduce((sum, row) => plus(sum, onShelf(row)), "0");
}

/** An amount that may be meant, by what it is. */
export interface Proposed {
  words: string;
  quantity: Quantity;
}

/** What was used of it last on this device, one pack of it, all that is left: each amount once. */
export function proposed(item: ItemRow, row: StockRow, last: string | null): Proposed[] {
  const { unit } = row.on_hand;
  const all = onShelf(row);
  const found = [
    ...(last ? [{ words: "as the last time", value: last }] : []),
    ...item.packs.map(({ pack, quantity }) => ({ words: pack, value: quantity.value })),
    { words: "all of it", value: all },
  ];
  const fitting = found.filter(({ value }) => sign(value) > 0 && sign(less(all, value)) >= 0);
  return fitting
    .filter(({ value }, place) => fitting.findIndex((each) => same(each.value, value)) === place)
    .map(({ words, value }) => ({ words, quantity: { value, unit } }));
}

function same(one: string, other: string): boolean {
  return sign(less(one, other)) === 0;
}

/** Whether a batch alone has so much; else it goes from what dies first, this one or another. */
export function isEnough(row: StockRow, value: string): boolean {
  return sign(less(onShelf(row), value)) >= 0;
}

const KEY = "used last";

/** What was used of an item last on this device; null where nothing was. */
export function lastUsed(item: string): string | null {
  return read()[item] ?? null;
}

/** Remember what was used of an item: it is proposed the next time. */
export function rememberUsed(item: string, value: string): void {
  localStorage.setItem(KEY, JSON.stringify({ ...read(), [item]: value }));
}

function read(): Record<string, string> {
  return JSON.parse(localStorage.getItem(KEY) ?? "{}") as Record<string, string>;
}
