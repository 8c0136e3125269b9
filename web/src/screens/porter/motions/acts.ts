import type { Signal } from "@preact/signals";
import { type BodyOf, isGiven, newId } from "../../../door/command";
import type { StandingRow } from "../../../door/outbox/batch_parts";
import type { ItemRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { serviceName } from "../../../parts/day_words";
import type { Doing } from "../../../parts/doing";
import { amount, isNothing } from "../../../words/amounts";
import { inUnit } from "../../../words/typed";
import { type Area, isPlaced, type Motion, type Purpose, placeFor } from "./offered";

/** What a person says of a motion beside its key; empty: all of it, no label. */
export interface Said {
  /** How much of it, as it was typed. */
  part: Signal<string>;
  pieces: Signal<string>;
  /** The numbered label that is put on what becomes a batch of its own. */
  number: Signal<string>;
  /** What is wrong with the amount. */
  wrong: Signal<string>;
}

export interface Acting {
  row: StandingRow;
  item: ItemRow;
  areas: Area[];
  doing: Doing;
  /** The batch that the last motion made. */
  made: Signal<string>;
  said: Said;
}

type Treating = Exclude<Motion, "move" | "take_out" | "use">;
type Quantity = Exclude<BodyOf<"open">["quantity"], string>;

/** A meal, or what is made for one, in words. */
export function purposeWords({ service, preparation }: Purpose): string {
  return preparation ?? serviceName(service);
}

/** The motions of a batch as commands; each answers whether it stands. */
export function actsOn({ row, item, areas, doing, made, said }: Acting) {
  const act = async <K extends "move" | "take_out" | "use" | Treating>(
    kind: K,
    body: BodyOf<K>,
    more: string,
    { value, unit }: Quantity,
  ): Promise<boolean> => {
    const mark = me.value?.house.decimal_mark ?? ".";
    const words = [`${row.label} ${row.item}`.trim(), amount({ value, unit }, mark), more];
    if (!isGiven(await doing.act(kind, body, words.filter(Boolean).join(", ")))) return false;
    for (const each of [said.part, said.pieces, said.number]) each.value = "";
    return true;
  };
  const treat = async (motion: Treating) => {
    const quantity = quantityOf(row, said);
    if (!quantity) return false;
    const place = isPlaced(motion) ? placeFor(motion, item, areas) : null;
    const label = said.number.value.trim();
    const child = newId();
    const body = {
      batch: row.batch,
      quantity,
      child,
      ...(place ? { area: place.id } : {}),
      ...(label ? { label } : {}),
    };
    const isDone = await act(motion, body, place ? `into the ${place.area}` : "", quantity);
    if (isDone) made.value = child;
    return isDone;
  };
  const use = async () => {
    const quantity = quantityOf(row, said);
    return quantity !== null && act("use", { batch: row.batch, quantity }, "", quantity);
  };
  const move = async (area: Area) => {
    const quantity = quantityOf(row, said);
    if (!quantity) return false;
    const [from, ...more] = Object.keys(row.areas);
    const known = from && more.length === 0 ? { from_area: from } : {};
    const body = { batch: row.batch, quantity, area: area.id, ...known };
    return act("move", body, `into the ${area.area}`, quantity);
  };
  const takeOut = async (purpose: Purpose) => {
    const isPicked = purpose.quantity !== null && said.part.value.trim() === "";
    const quantity = isPicked ? purpose.quantity : quantityOf(row, said);
    if (!quantity) return false;
    const { service, preparation } = purpose;
    const body = { batch: row.batch, quantity, ...(preparation ? { preparation } : { service }) };
    return act("take_out", body, `for ${purposeWords(purpose)}`, quantity);
  };
  return { treat, use, move, takeOut };
}

/** All of it, or the part that was typed; null where that cannot be read, and then it is said. */
function quantityOf(row: StandingRow, { part, pieces, wrong }: Said): Quantity | null {
  const { unit } = row.on_hand;
  wrong.value = "";
  if (part.value.trim() === "") return { value: row.on_hand.value, unit };
  const value = inUnit(part.value, unit);
  if (value === null || isNothing({ value, unit })) {
    wrong.value = "Say how much as a number above nothing, without any other sign.";
    return null;
  }
  const count = row.pieces ? pieces.value.trim() : "";
  return { value, unit, ...(count ? { pieces: count } : {}) };
}
