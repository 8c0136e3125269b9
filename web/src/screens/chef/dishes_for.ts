import type { DishForRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { plain } from "../../words/find";
import type { Draft, DraftDish } from "./draft";
import { type IfSo, useIfSo } from "./if_so";
import { isWhole } from "./stepper";

/** Hours and minutes, as the house reads them. */
const CLOCK = /^([01]?\d|2[0-3]):[0-5]\d$/;

/** What each dish would come to at the meal of a draft; nothing is asked before it is said which meal. */
export function useDishesFor({ date, meal, table, time, covers }: Draft): IfSo<DishForRow> {
  const clock = time.trim();
  const isSaid =
    mayRead("dishes-for") &&
    [date, plain(meal), table].every(Boolean) &&
    CLOCK.test(clock) &&
    isWhole(covers) &&
    Number(covers) > 0;
  const at = { date, meal, table, time: clock.padStart(5, "0"), covers: covers.trim() };
  return useIfSo(isSaid ? `/api/reports/dishes-for?${new URLSearchParams(at)}` : null);
}

/** What is said of a dish as it is drafted, in its version. */
export function saidOf(rows: DishForRow[] | null, one: Pick<DraftDish, "dish" | "variant">) {
  return rows?.find((row) => row.dish === one.dish && row.variant === one.variant) ?? null;
}
