import type { ItemRow } from "../rows";
import type { Wire } from "../wire";
import { halfEven } from "./meaning";
import type { Scan } from "./scan";

/** An exact number as a quotient of whole ones. */
type Exact = readonly [above: bigint, below: bigint];

const ONE: Exact = [1n, 1n];

/**
 * How many g or ml one of a unit is, exactly: 1 lb = 0.45359237 kg, 1 US gallon = 231 cubic inches, 1 in =
 * 25.4 mm (NIST Handbook 44, Appendix C). The house has the same in its units' table.
 */
const UNITS: Record<string, { of: "g" | "ml"; factor: Exact }> = {
  kg: { of: "g", factor: [1000n, 1n] },
  lb: { of: "g", factor: [45359237n, 100000n] },
  l: { of: "ml", factor: [1000n, 1n] },
  "fl oz": { of: "ml", factor: [473176473n, 16000000n] },
  qt: { of: "ml", factor: [473176473n, 500000n] },
  gal: { of: "ml", factor: [473176473n, 125000n] },
};

/** The largest quantity, in thousandths: more than a house can hold. */
const MOST = 10n ** 12n;

function times([above, below]: Exact, [otherAbove, otherBelow]: Exact): Exact {
  return [above * otherAbove, below * otherBelow];
}

/** `1.250` or `103/100` as a quotient. */
function exact(written: string): Exact {
  const [above = "", below] = written.split("/");
  if (below !== undefined) return [BigInt(above), BigInt(below)];
  const [whole = "", decimals = ""] = written.split(".");
  return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)];
}

/** Grams in one g, ml or each of an item; null where its density or piece weight is not known (MS3). */
function gramsInOne(unit: string, item: ItemRow): Exact | null {
  if (unit === "g") return ONE;
  const fact = unit === "ml" ? item.density_g_per_ml : item.piece_weight_g;
  return fact === null ? null : exact(fact);
}

/** So much of a unit in thousandths of the item's own, rounded once (MS1); null where it cannot be told. */
function inBaseUnit(value: Exact, unit: string, item: ItemRow): bigint | null {
  if (unit === item.unit) return thousandths(value);
  const [from, to] = [gramsInOne(unit, item), gramsInOne(item.unit, item)];
  if (!from || !to) return null;
  return thousandths(times(times(value, from), [to[1], to[0]]));
}

function thousandths([above, below]: Exact): bigint {
  return halfEven(above * 1000n, below);
}

function written(amount: bigint, unit: ItemRow["unit"]): Wire["Quantity"] {
  const [whole, rest] = [amount / 1000n, amount % 1000n];
  const decimals = String(rest).padStart(3, "0").replace(/0+$/, "");
  return { value: decimals ? `${whole}.${decimals}` : String(whole), unit };
}

/**
 * What a scan says there is of an item, in the item's unit; null where it says nothing of it, where nobody
 * counts the item, and where a density or piece weight would be needed and is not known: never guessed.
 *
 * A weight or volume; or else so many of what is inside a unit, each as `pack` holds; or else pieces.
 */
export function statedQuantity(
  scan: Scan,
  item: ItemRow,
  pack: string | null,
): Wire["Quantity"] | null {
  if (!item.counted) return null;
  const amount = statedIn(scan, item, pack);
  return amount === null || amount > MOST ? null : written(amount, item.unit);
}

function statedIn(scan: Scan, item: ItemRow, pack: string | null): bigint | null {
  if (scan.quantity) {
    const unit = UNITS[scan.quantity.unit];
    return unit ? inBaseUnit(times(exact(scan.quantity.value), unit.factor), unit.of, item) : null;
  }
  if (scan.count === null) return null;
  const count: Exact = [BigInt(scan.count), 1n];
  if (scan.content_gtin === null) return inBaseUnit(count, "each", item);
  return pack === null ? null : thousandths(times(count, exact(pack)));
}
