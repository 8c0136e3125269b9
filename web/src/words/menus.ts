/** A menu in the words of the house. */
import type { Quantity } from "../door/quantities";
import type { MenuDish, MenuRow, State } from "../door/rows";
import { listed } from "./amounts";

export const STATES: Record<State, string> = {
  proposed: "proposed",
  confirmed: "confirmed",
  served: "served",
  taken_off: "taken off",
};

export const CAUTION = "Read the label. Local codes and medical advice come first.";

export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `Dinner, family`. */
export function serviceTitle(meal: string, table: string): string {
  return `${sentence(meal)}, ${table}`;
}

/** `Venison casserole, without alcohol`. */
export function dishName(dish: { name: string; variant: string | null }): string {
  return dish.variant ? `${dish.name}, ${dish.variant}` : dish.name;
}

/** Whether a dish is covered, has something to be bought, or cannot be had any more. */
export type Standing = "covered" | "buy" | "gone";

export function standing(dish: MenuDish, state: State, now: number): Standing {
  const isLate = dish.choose_by === null || Date.parse(dish.choose_by) < now;
  if (isLate && (state === "proposed" || dish.short.length > 0)) return "gone";
  return dish.short.length > 0 ? "buy" : "covered";
}

export function standsAs(dish: MenuDish, state: State, now: number): string {
  const stands = standing(dish, state, now);
  if (stands === "covered") return "covered";
  if (stands === "buy") return `to be bought: ${listed(dish.short)}`;
  if (dish.short.length === 0) return "too late to prepare it";
  return `cannot be had any more: it lacks ${listed(dish.short)}`;
}

/** What a dish's flags say in plain words; what it shares is said by its items, who cannot eat it by its conflicts. */
export function flagsSaid(flags: string[]): string[] {
  const said: Record<string, string> = {
    thaw: "something comes out of the freezer for it",
    past_its_best: "uses something that is past its best",
  };
  return flags.flatMap((flag) => said[flag] ?? []);
}

/** What a dish's flags say to whoever eats it, without a word of stock. */
export function cautionsSaid(flags: string[]): string[] {
  const said: Record<string, string> = {
    recipe_not_approved: "new here: look at its recipe and approve it before it is chosen",
    allergens_unknown: "not everything in it has declared its allergens",
  };
  return flags.flatMap((flag) => said[flag] ?? []);
}

/** What of a proposed menu is to be chosen next, what early, and what no longer can be. */
export interface ToChoose {
  next: string | null;
  early: MenuDish[];
  gone: MenuDish[];
}

export function toChoose(row: MenuRow, now: number): ToChoose {
  const dishes = row.courses.flatMap((course) => course.dishes);
  const open = dishes.filter((dish) => standing(dish, row.state, now) !== "gone");
  const times = open.flatMap((dish) => dish.choose_by ?? []).sort();
  return {
    next: times[0] ?? null,
    early: open.filter((dish) => dish.choose_by !== null && dish.choose_by < row.notice_by),
    gone: dishes.filter((dish) => standing(dish, row.state, now) === "gone"),
  };
}

/** Why a dish must be chosen before the usual notice. */
export function earlyReason(dish: MenuDish): string {
  return dish.short.length > 0
    ? `${listed(dish.short)} must be ordered by then`
    : "it takes that long to prepare";
}

/** A quantity to its last digit, for whoever works it out again. */
export function exact({ value, unit }: Quantity, mark = "."): string {
  const number = mark === "," ? value.replace(".", ",") : value;
  return unit === "each" ? number : `${number} ${unit}`;
}
