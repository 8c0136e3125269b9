import { SCAN_AGAIN, unreadable } from "./refused";
import { type Scan, warned } from "./scan";
import { checkDigitHolds, requireCheckDigit } from "./values";

export const NOT_FOOD_NUMBER = "not_food_number";
const STORE_NUMBER_NOT_GLOBAL = "store_number_not_global";

/**
 * What each symbology of retail carries: EAN-13, UPC-A or UPC-E; the same with an add-on; EAN-8; ITF-14
 * (GS1 General Specifications, figure 5.1.2-2).
 */
const RETAIL: Record<string, RegExp> = {
  "]E0": /^(?:[0-9]{8}|[0-9]{12,13})$/,
  "]E3": /^([0-9]{13})(?:[0-9]{2}|[0-9]{5})$/,
  "]E4": /^[0-9]{8}$/,
  "]I1": /^[0-9]{14}$/,
};

/** What is a product number without any symbology identifier. */
export const PLAIN = /^(?:[0-9]{8}|[0-9]{12,14})$/;

/** How 13 digits begin that are periodicals, books, refunds and coupons (GS1 General Specs, 1.4.5). */
const NOT_FOOD = /^(?:97[7-9]|98[0-4]|99|05)/;

/** Numbers that a company keeps to itself: GTIN-8 that begin with 0 or 2, GTIN-13 with 04. */
const OWN = /^(?:004|000000[02])/;

/** Numbers of restricted circulation that change with the measure: 02 and 20 to 29. */
const CHANGES_WITH_MEASURE = /^0(?:02|2)/;

export function isRetail(symbology: string | null): symbology is string {
  return symbology !== null && symbology in RETAIL;
}

/** The GTIN in a barcode of retail; an add-on is dropped, a UPC-E is expanded. */
export function retailNumber(symbology: string, digits: string): string {
  const found = RETAIL[symbology]?.exec(digits);
  if (!found) {
    throw unreadable(
      "wrong_number_of_digits",
      `${digits} is not what a barcode ${symbology} can carry.`,
      SCAN_AGAIN,
      digits,
    );
  }
  if (symbology === "]E0" && digits.length === 8) return expanded(digits);
  return found[1] ?? digits;
}

/**
 * The scan with 8, 12, 13 or 14 digits as its product number, filled to 14 with zeros. A number that
 * carries a measure names no product; the layouts of shops are not known here, as they are not in the
 * house's own answer.
 */
export function withProductNumber(scan: Scan, number: string): Scan {
  requireCheckDigit(number);
  const gtin = number.padStart(14, "0");
  if (CHANGES_WITH_MEASURE.test(gtin)) {
    const own = { ...scan, store_number: { number: gtin.slice(1), item: null } };
    return warned(own, [STORE_NUMBER_NOT_GLOBAL]);
  }
  return warned({ ...scan, gtin }, [
    ...(OWN.test(gtin) ? [STORE_NUMBER_NOT_GLOBAL] : []),
    ...(NOT_FOOD.test(gtin.slice(1)) ? [NOT_FOOD_NUMBER] : []),
  ]);
}

/** A UPC-E as the UPC-A that it shortens (GS1 General Specifications, section 5.2.2.4). */
function expanded(digits: string): string {
  const [system = "", body = "", check = ""] = [digits[0], digits.slice(1, 7), digits[7]];
  const last = body[5] ?? "";
  let middle: string;
  if ("012".includes(last)) middle = `${body.slice(0, 2)}${last}0000${body.slice(2, 5)}`;
  else if (last === "3") middle = `${body.slice(0, 3)}00000${body.slice(3, 5)}`;
  else if (last === "4") middle = `${body.slice(0, 4)}00000${body.slice(4, 5)}`;
  else middle = `${body.slice(0, 5)}0000${last}`;
  const number = `${system}${middle}${check}`;
  if (!"01".includes(system) || !checkDigitHolds(number)) {
    throw unreadable(
      "wrong_check_digit",
      `The check digit of the UPC-E ${digits} does not agree with its other digits.`,
      SCAN_AGAIN,
      digits,
    );
  }
  return number;
}
