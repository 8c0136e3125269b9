import { CURRENCY_NUMBERS } from "./currencies";
import { readDate, readTime } from "./dates";
import type { Reading } from "./element_strings";
import { known } from "./identifiers";
import { pairingWarnings, refuseContradictions } from "./pairing";
import { NOT_FOOD_NUMBER, withProductNumber } from "./product_numbers";
import { READ_THE_PACK, unreadable } from "./refused";
import { type Scan, warned } from "./scan";

type Said = Map<string, string>;

/** Net weights and volumes of food by the first three digits; the fourth is the decimals. */
const NET_MEASURES = [
  ["310", "kg"],
  ["315", "l"],
  ["320", "lb"],
  ["357", "fl oz"],
  ["360", "qt"],
  ["361", "gal"],
] as const;

/** The scan with what its elements say; a due date of a bill (AI 12) is no date of food. */
export function withMeaning(scan: Scan, reading: Reading, today: string): Scan {
  refuseContradictions(reading.elements);
  const said: Said = new Map(reading.elements.map(({ ai, value }) => [ai, value]));
  const count = said.get("37") ?? said.get("30");
  const meant: Scan = {
    ...scan,
    lot: said.get("10") ?? null,
    quantity: quantityOf(said),
    count: count === undefined ? null : Number(count),
    serial: said.get("21") ?? null,
    variant: said.get("20") ?? said.get("22") ?? null,
    sscc: said.get("00") ?? null,
    content_gtin: said.get("02") ?? null,
    ...priceOf(said),
    elements: reading.elements,
    unread: reading.unread,
    ...datesOf(said, today),
  };
  const doubted = warned(meant, [...reading.warnings, ...pairingWarnings(reading.elements)]);
  const number = said.get("01") ?? said.get("03");
  if (number !== undefined) return withProductNumber(doubted, number);
  return namesNoFood(said) ? warned(doubted, [NOT_FOOD_NUMBER]) : doubted;
}

function datesOf(said: Said, today: string) {
  const day = (ai: string) => {
    const digits = said.get(ai);
    return digits === undefined ? null : readDate(digits.slice(0, 6), today, true);
  };
  return {
    ...markOf(day("17"), day("7003"), day("15"), said.get("7003")?.slice(6) ?? ""),
    best_before: day("15"),
    sell_by: day("16"),
    produced: day("11") ?? day("8008"),
    packed: day("13"),
    frozen: day("7006"),
    harvested: harvestOf(said.get("7007") ?? "", today),
  };
}

/** The earlier of both use-by dates, its time where it has one; or else the best-before date. */
function markOf(
  useBy: string | null,
  expiry: string | null,
  bestBefore: string | null,
  clock: string,
): Pick<Scan, "date_mark" | "time"> {
  const [first] = [useBy, expiry].filter((day) => day !== null).sort();
  if (first !== undefined) {
    const time = first === expiry ? readTime(clock) : null;
    return { date_mark: { kind: "use_by", date: first }, time };
  }
  if (bestBefore === null) return { date_mark: null, time: null };
  return { date_mark: { kind: "best_before", date: bestBefore }, time: null };
}

function harvestOf(digits: string, today: string): Scan["harvested"] {
  if (!digits) return null;
  const from = readDate(digits.slice(0, 6), today);
  const to = digits.length > 6 ? readDate(digits.slice(6), today) : from;
  if (to < from) {
    throw unreadable(
      "no_such_date",
      `A harvest cannot end on ${to} before it begins on ${from}.`,
      READ_THE_PACK,
      digits,
    );
  }
  return { from, to };
}

/** At least as many digits as decimals, as exact text: `001250` with 3 is `1.250`. */
function decimalText(digits: string, decimals: number): string {
  const whole = String(BigInt(decimals === 0 ? digits : digits.slice(0, -decimals) || "0"));
  return decimals === 0 ? whole : `${whole}.${digits.slice(-decimals)}`;
}

function quantityOf(said: Said): Scan["quantity"] {
  for (const [beginning, unit] of NET_MEASURES) {
    for (const [ai, digits] of said) {
      if (ai.startsWith(beginning)) return { value: decimalText(digits, Number(ai[3])), unit };
    }
  }
  return null;
}

/** Of AI 392n and 393n; 390n and 391n are amounts of a bill, 395n is a price per kilogram. */
function priceOf(said: Said): Pick<Scan, "price" | "price_decimals"> {
  for (const [ai, digits] of said) {
    const decimals = Number(ai[3]);
    if (ai.startsWith("392")) {
      return { price: { minor: Number(digits), currency: null }, price_decimals: decimals };
    }
    const currency = ai.startsWith("393") && CURRENCY_NUMBERS.get(digits.slice(0, 3));
    if (currency) {
      const minor = inMinorUnits(digits.slice(3), decimals, currency.decimals);
      return { price: { minor, currency: currency.code }, price_decimals: currency.decimals };
    }
  }
  return { price: null, price_decimals: null };
}

/** Digits with implied decimals in the minor unit, rounded half-even once (MS1). */
function inMinorUnits(digits: string, decimals: number, places: number): number {
  const [above, below] = [BigInt(digits) * 10n ** BigInt(places), 10n ** BigInt(decimals)];
  return Number(halfEven(above, below));
}

/** A quotient of numbers that are not negative, rounded half-even. */
export function halfEven(above: bigint, below: bigint): bigint {
  const [whole, twice] = [above / below, (above % below) * 2n];
  const isUp = twice > below || (twice === below && whole % 2n === 1n);
  return isUp ? whole + 1n : whole;
}

/** Whether the only keys are of places, assets, documents or people. */
function namesNoFood(said: Said): boolean {
  const hasKey = [...said.keys()].some((ai) => known(ai).qualifiers !== null);
  return hasKey && !said.has("00") && !said.has("02");
}
