import type { BodyOf } from "../../../door/command";
import type { DayMark, ItemRow } from "../../../door/rows";
import { amount, many } from "../../../words/amounts";
import { inUnit } from "../../../words/typed";

/** The reason with which plates come back: nobody else eats of them. */
export const CAME_BACK = "came back from the table";

/** What is lost: an item of the house, a dish that was served, or whatever the words say. */
export type What =
  | { kind: "item"; item: ItemRow }
  | { kind: "dish"; dish: string }
  | { kind: "words"; words: string };

type Unit = "g" | "ml" | "each";

/** The dishes of the meals of a day, as they stand on its line, once each. */
export function dishesOf(marks: DayMark[], day: string): string[] {
  const served = marks.filter((mark) => mark.what === "service" && mark.day === day);
  return [...new Set(served.flatMap((mark) => ("dishes" in mark ? mark.dishes : [])))];
}

/** In what it may be said how much is lost, what is quickest first. */
export function unitsOf(what: What): Unit[] {
  if (what.kind === "item" && what.item.counted) return [what.item.unit];
  return what.kind === "dish" ? ["each", "g", "ml"] : ["g", "ml", "each"];
}

/** A unit as people call it. */
export function unitWords(unit: Unit, what: What): string {
  if (unit !== "each") return unit;
  return what.kind === "dish" ? "plates" : "pieces";
}

export function nameOf(what: What): string {
  if (what.kind === "item") return what.item.item;
  return what.kind === "dish" ? what.dish : what.words.trim();
}

/** How much, in words: `2 plates of`, `300 g`. */
export function amountOf(what: What, typed: string, unit: Unit, mark = "."): string {
  const value = inUnit(typed, unit) ?? "0";
  if (unit !== "each" || what.kind === "item") return amount({ value, unit }, mark);
  return what.kind === "dish" ? `${many(Number(value), "plate")} of` : many(Number(value), "piece");
}

/** What is said of it to the house, but for pictures; null where what or how much is not said. */
export function bodyOf(
  what: What,
  typed: string,
  unit: Unit,
  reason: string,
  destination: string,
): BodyOf<"waste_without_batch"> | null {
  const value = inUnit(typed, unit);
  if (!nameOf(what) || value === null || Number(value) <= 0) return null;
  const of =
    what.kind === "item"
      ? { item: what.item.id }
      : what.kind === "dish"
        ? { dish: what.dish }
        : { words: what.words.trim() };
  return { ...of, quantity: { value, unit }, reason, destination };
}
