import type { BodyOf } from "../../../door/command";
import type { ServingBatch, ServingDish, ServingRow } from "../../../door/rows";
import { sign } from "../../../door/sums";
import { inUnit } from "../../../words/typed";

/** What was otherwise with one batch: another amount of it, or another batch in its place. */
export interface OtherBatch {
  /** As it was typed; empty: as planned. */
  typed: string;
  /** The batch that was used instead, by its id. */
  instead: string | null;
}

/** Something that was used beside what was planned. */
export interface More {
  item: string;
  name: string;
  unit: string;
  typed: string;
}

/** What was otherwise than planned at a meal. */
export interface Otherwise {
  /** Portions as they were typed, by dish and variant. */
  portions: Record<string, string>;
  /** By batch. */
  batches: Record<string, OtherBatch>;
  more: More[];
}

export const AS_PLANNED: Otherwise = { portions: {}, batches: {}, more: [] };

export function keyOf({ dish, variant }: ServingDish): string {
  return `${dish}|${variant ?? ""}`;
}

export function portionsOf(dish: ServingDish, { portions }: Otherwise): string {
  return portions[keyOf(dish)] ?? String(dish.portions);
}

/** The dishes of which other portions were served than planned. */
export function otherDishes(row: ServingRow, otherwise: Otherwise): ServingDish[] {
  return row.dishes.filter((dish) => Number(portionsOf(dish, otherwise)) !== dish.portions);
}

/** How much of a batch was used; null where what was typed cannot be read. */
export function usedOf(batch: ServingBatch, { batches }: Otherwise): string | null {
  const typed = batches[batch.batch]?.typed.trim();
  return typed ? inUnit(typed, batch.quantity.unit) : batch.quantity.value;
}

/** Whether everything that was typed can be read. */
export function isReadable(row: ServingRow, otherwise: Otherwise): boolean {
  return (
    row.dishes.every((dish) => /^\d{1,5}$/.test(portionsOf(dish, otherwise).trim())) &&
    row.batches.every((batch) => usedOf(batch, otherwise) !== null) &&
    otherwise.more.every(({ typed, unit }) => sign(inUnit(typed, unit) ?? "0") > 0)
  );
}

/** How many things were otherwise. */
export function countOf(row: ServingRow, otherwise: Otherwise): number {
  const batches = row.batches.filter(({ batch, quantity }) => {
    const other = otherwise.batches[batch];
    const value = other?.typed.trim() ? inUnit(other.typed, quantity.unit) : quantity.value;
    return Boolean(other?.instead) || value !== quantity.value;
  });
  return otherDishes(row, otherwise).length + batches.length + otherwise.more.length;
}

/** The command's body: only what was otherwise is said. */
export function bodyOf(row: ServingRow, otherwise: Otherwise): BodyOf<"serve"> {
  const dishes = otherDishes(row, otherwise).map((dish) => ({
    dish: dish.dish,
    portions: Number(portionsOf(dish, otherwise)),
    ...(dish.variant ? { variant: dish.variant } : {}),
  }));
  const exceptions = [
    ...row.batches.flatMap((batch) => exceptionsOf(batch, otherwise)),
    ...otherwise.more.map(({ item, typed, unit }) => ({
      item,
      quantity: { value: inUnit(typed, unit) ?? "0", unit },
    })),
  ];
  return {
    service: row.service,
    ...(dishes.length > 0 ? { dishes } : {}),
    ...(exceptions.length > 0 ? { exceptions } : {}),
  };
}

function exceptionsOf(batch: ServingBatch, otherwise: Otherwise) {
  const { unit, value: planned } = batch.quantity;
  const value = usedOf(batch, otherwise) ?? planned;
  const instead = otherwise.batches[batch.batch]?.instead;
  if (instead) {
    return [
      { batch: batch.batch, quantity: { value: "0", unit } },
      { batch: instead, quantity: { value, unit } },
    ];
  }
  return value === planned ? [] : [{ batch: batch.batch, quantity: { value, unit } }];
}
