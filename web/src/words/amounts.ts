import type { Money, Quantity } from "../door/quantities";
import { moved, rounded } from "./numbers";

const LARGER: Record<string, string> = { g: "kg", ml: "l" };

/**
 * A quantity in the words of a kitchen: 1225 g is `1.225 kg`, 12000 ml `12 l`, 6 each `6`.
 * Shown to the gram or millilitre and a tenth of a piece; a smaller rest than that is still there.
 */
export function amount(quantity: Quantity, mark = "."): string {
  const { value, unit } = quantity;
  const larger = LARGER[unit];
  const whole = value.split(".")[0]?.replace("-", "") ?? "0";
  if (larger && whole.length >= 4) return `${marked(moved(rounded(value, 0), -3), mark)} ${larger}`;
  if (unit === "each") return marked(rounded(value, 2), mark);
  return `${marked(rounded(value, value.startsWith("0.") ? 1 : 0), mark)} ${unit}`;
}

/** Whether there is nothing of it. */
export function isNothing(quantity: Quantity): boolean {
  return /^-?0*(\.0*)?$/.test(quantity.value);
}

/** How many decimal places the habits of a currency have. */
function placesOf(currency: string): number {
  const habits = new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions();
  return habits.maximumFractionDigits ?? 2;
}

/** A sum as somebody wrote it, `4.10` or `4,1`, in minor units; null where it is none. */
export function minorUnits(written: string, currency: string): number | null {
  const places = placesOf(currency);
  const [, whole, part = ""] = /^(\d{1,9})(?:[.,](\d+))?$/.exec(written.trim()) ?? [];
  if (whole === undefined || part.length > places) return null;
  return Number(whole + part.padEnd(places, "0"));
}

/** Money by the habits of its currency: `37.80 GBP`. */
export function money(sum: Money, mark = "."): string {
  const places = placesOf(sum.currency);
  const text = moved(String(sum.minor), -places);
  const [whole = "0", part = ""] = text.split(".");
  return `${marked(places ? `${whole}.${part.padEnd(places, "0")}` : whole, mark)} ${sum.currency}`;
}

function marked(value: string, mark: string): string {
  return mark === "," ? value.replace(".", ",") : value;
}

/** `1 item`, `3 items`, `2 batches`. */
export function many(count: number, one: string, several = `${one}s`): string {
  return `${count} ${count === 1 ? one : several}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(parts: string[]): string {
  if (parts.length < 2) return parts[0] ?? "";
  return `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
}

/** The first few of a list by name: `a, b and 3 more`. */
export function few(parts: string[], shown = 2): string {
  if (parts.length <= shown + 1) return listed(parts);
  return `${parts.slice(0, shown).join(", ")} and ${parts.length - shown} more`;
}
