import { isNamed } from "../codes/is_on";
import type { HouseRow, ItemRow, StockRow } from "../rows";
import type { Life } from "../shelf_life";
import { less, plus, sign } from "../sums";

/** A batch as it stands on this device. */
export type StandingRow = StockRow & {
  /** Whether it was made here, and the house does not have it yet. */
  isOwn?: true;
  /** Whether it cannot be reckoned here until when it keeps: the house says it. */
  isUntold?: true;
};

/** An item as the house told it; its lives are missing where that was told by an older house. */
export interface NamedItem {
  id: string;
  name: string;
  unit: Amount["unit"];
  lives?: ItemRow["lives"] | undefined;
}

/** What the house told of itself: its areas and items, which records name by their ids, its zone, its lives. */
export interface Named {
  area: (named: string) => { name: string; isFrozen: boolean };
  item: (named: string) => NamedItem | null;
  zone: string;
  lives?: HouseRow["lives"] | undefined;
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
  dated: Dated;
}

/** What was made of a batch's dates: its life (null: not to be reckoned here), its pack's mark, whether it is held. */
export interface Dated {
  at: string;
  life: Life | null;
  keepsMark: boolean;
  isHeld: boolean;
}

/** A batch's dates by its life as it is reckoned here; where it cannot be, none is shown (SL2). */
export function datedBy(life: Life | null, at: string) {
  const isPast = life !== null && life.usable !== null && at > life.usable;
  return {
    usable_until: life?.usable ?? null,
    good_until: life?.good ?? null,
    left: life?.left ?? null,
    usable: !isPast,
    flagged: life !== null && life.good !== null && at > life.good,
    isOwn: true as const,
    ...(life ? {} : { isUntold: true as const }),
  };
}

/**
 * A part of a batch as a batch of its own, in an area or in the kitchen, with the dates that follow from what was
 * done to it: its parent's are not its own (SL3).
 */
export function split(
  rows: StandingRow[],
  part: Part,
  child: Child,
  area: string | null,
): StandingRow[] {
  const { row, value } = part;
  const { dated } = child;
  const isHeld = dated.isHeld || sign(row.on_hold.value) > 0;
  // what may not be used though it is in date is recalled, and so is what is made of it
  const isRecalled = !row.usable && (row.usable_until === null || dated.at <= row.usable_until);
  const dates = datedBy(dated.life, dated.at);
  const nothing = change(row.on_hand, "0");
  const whole = change(row.on_hand, value);
  const made: StandingRow = {
    ...row,
    batch: child.batch,
    label: child.label ?? "",
    numbered: [],
    state: child.state,
    was_thawed: row.was_thawed || child.state === "thawed",
    date_mark: dated.keepsMark ? row.date_mark : { kind: "none", date: null },
    ...dates,
    usable: dates.usable && !isRecalled,
    areas: area ? { [area]: whole } : {},
    area,
    on_hand: whole,
    available: isHeld ? nothing : whole,
    on_hold: isHeld ? whole : nothing,
    promised: nothing,
    emergency: nothing,
    pieces: null,
  };
  return [...replaced(rows, row, lessened(part, null)), made];
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
