import { isNamed } from "../codes/is_on";
import type { StockRow } from "../rows";
import { less, plus, sign } from "../sums";

/** A batch as it stands on this device: what treated it here is known, the dates that follow from it are not yet. */
export type StandingRow = StockRow & {
  /** Whether the house has not said yet until when it keeps. */
  untold?: true;
};

/** What the house told of its areas and items, which records name by their ids. */
export interface Named {
  area: (named: string) => { name: string; isFrozen: boolean };
  item: (named: string) => { id: string; name: string; unit: Amount["unit"] } | null;
}

export type Amount = StockRow["on_hand"];
export type State = StockRow["state"];
export function areaOf(area: string | null | undefined, named: Named): string | null {
  return area ? named.area(area).name : null;
}

/** A quantity as a record writes it, in the unit of a row; null where it is in another, or in words. */
export function inUnit(
  written: string | { value: string; unit: string },
  unit: string,
): string | null {
  if (typeof written === "string") return null;
  return written.unit === unit ? written.value : null;
}

export function smaller(one: string, other: string): string {
  return sign(less(one, other)) < 0 ? one : other;
}

export function change(quantity: Amount, value: string): Amount {
  return { ...quantity, value };
}

export function replaced(rows: StandingRow[], row: StandingRow, by: StandingRow): StandingRow[] {
  return rows.map((each) => (each === row ? by : each));
}

/** Part of a batch that a record names, as this device can follow it. */
export interface Part {
  row: StandingRow;
  value: string;
}

export function partOf(
  rows: StandingRow[],
  batch: string,
  written: string | { value: string; unit: string },
): Part | null {
  const row = rows.find((each) => isNamed(each, batch));
  const value = row && inUnit(written, row.on_hand.unit);
  return row && value ? { row, value } : null;
}

/** What is left in each area: the one that is named first, then the fullest. */
export function leftIn(
  areas: StandingRow["areas"],
  value: string,
  from: string | null,
): StandingRow["areas"] {
  const order = Object.entries(areas).sort(
    ([one, a], [other, b]) =>
      Number(other === from) - Number(one === from) || sign(less(b.value, a.value)),
  );
  let rest = value;
  const left: StandingRow["areas"] = {};
  for (const [area, there] of order) {
    const taken = smaller(rest, there.value);
    rest = less(rest, taken);
    const stays = less(there.value, taken);
    if (sign(stays) > 0) left[area] = change(there, stays);
  }
  return left;
}

/** A batch of which so much is there no more. */
export function lessened({ row, value }: Part, from: string | null): StandingRow {
  const free = smaller(value, row.available.value);
  const promised = smaller(less(value, free), row.promised.value);
  // what is on hold is taken from last but for the emergency meal
  const held = smaller(less(less(value, free), promised), row.on_hold.value);
  const kept = smaller(less(less(less(value, free), promised), held), row.emergency.value);
  const areas = leftIn(row.areas, value, from);
  return {
    ...row,
    areas,
    area: row.area && row.area in areas ? row.area : (Object.keys(areas)[0] ?? null),
    on_hand: change(row.on_hand, less(row.on_hand.value, value)),
    available: change(row.available, less(row.available.value, free)),
    promised: change(row.promised, less(row.promised.value, promised)),
    on_hold: change(row.on_hold, less(row.on_hold.value, held)),
    emergency: change(row.emergency, less(row.emergency.value, kept)),
  };
}

export function fullest(areas: StandingRow["areas"]): string | null {
  const [first] = Object.entries(areas).sort(([, a], [, b]) => sign(less(b.value, a.value)));
  return first?.[0] ?? null;
}

export interface Child {
  batch: string;
  label: string | null | undefined;
  state: State;
}

/**
 * A part of a batch as a batch of its own, in an area or in the kitchen. Until when it keeps follows from what was
 * done to it, and the house says it: its parent's dates are not shown as its own (SL3).
 */
export function split(
  rows: StandingRow[],
  part: Part,
  child: Child,
  area: string | null,
): StandingRow[] {
  const { row, value } = part;
  const isHeld = sign(row.on_hold.value) > 0;
  const nothing = change(row.on_hand, "0");
  const whole = change(row.on_hand, value);
  const made: StandingRow = {
    ...row,
    batch: child.batch,
    label: child.label ?? "",
    numbered: [],
    state: child.state,
    was_thawed: row.was_thawed || child.state === "thawed",
    date_mark: keepsMark(child.state) ? row.date_mark : { kind: "none", date: null },
    usable_until: null,
    good_until: null,
    areas: area ? { [area]: whole } : {},
    area,
    on_hand: whole,
    available: isHeld ? nothing : whole,
    on_hold: isHeld ? whole : nothing,
    promised: nothing,
    emergency: nothing,
    pieces: null,
    untold: true,
  };
  return [...replaced(rows, row, lessened(part, null)), made];
}

/** Whether the pack's own date still stands on what it has become. */
function keepsMark(state: State): boolean {
  return state !== "frozen" && state !== "thawed";
}

/** A batch of which so much more is there. */
export function grown({ row, value }: Part, area: string): StandingRow {
  const there = row.areas[area] ?? change(row.on_hand, "0");
  return {
    ...row,
    area: row.area ?? area,
    areas: { ...row.areas, [area]: change(there, plus(there.value, value)) },
    on_hand: change(row.on_hand, plus(row.on_hand.value, value)),
    available: change(row.available, plus(row.available.value, value)),
  };
}
