import { me } from "../door/session";
import { moved } from "./numbers";

/** A number that can be read in two ways: fifteen hundred to one, one and a half to another. */
const TWO_WAYS: Record<string, RegExp> = {
  ".": /^[1-9]\d{0,2},\d{3}(?!\d)/,
  ",": /^[1-9]\d{0,2}[.,]\d{3}(?!\d)/,
};

/**
 * What was typed as an amount in the item's unit, or in its larger one: `1,2 kg` is 1200 of a g.
 * Null where it cannot be read, or in two ways: `1,500` anywhere, `1.500` too where a comma is the
 * decimal mark of the house.
 */
export function inUnit(
  typed: string,
  unit: string,
  mark: string = me.value?.house.decimal_mark ?? ".",
): string | null {
  if (TWO_WAYS[mark]?.test(typed.trim())) return null;
  const found = /^(\d{1,9}(?:\.\d{1,6})?)\s*(kg|g|l|ml)?$/.exec(
    typed.trim().replace(",", ".").toLowerCase(),
  );
  if (!found) return null;
  const [, value = "", said] = found;
  if (!said || said === unit) return value;
  const isLarger = (said === "kg" && unit === "g") || (said === "l" && unit === "ml");
  return isLarger ? moved(value, 3) : null;
}
