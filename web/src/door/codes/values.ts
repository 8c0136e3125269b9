import { CURRENCY_NUMBERS } from "./currencies";
import { readDate, readTime } from "./dates";
import type { Identifier } from "./identifiers";
import { SCAN_AGAIN, unreadable } from "./refused";

/** Digits, the GS1 sets of 82 and 39, base64url (GS1 General Specifications, section 7.11). */
const CHARACTERS = {
  N: "[0-9]",
  X: String.raw`[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]`,
  Y: String.raw`[#\-/0-9A-Z]`,
  Z: String.raw`[\-0-9A-Z_a-z=]`,
};

/** Whether the last digit is the check digit of those before it (GS1 General Specifications, 7.9.1). */
export function checkDigitHolds(number: string): boolean {
  let sum = 0;
  for (let place = 0; place < number.length; place += 1) {
    const isOdd = (number.length - 1 - place) % 2 === 1;
    sum += Number(number[place]) * (isOdd ? 3 : 1);
  }
  return sum % 10 === 0;
}

/** Refuse a number whose check digit is wrong. */
export function requireCheckDigit(number: string): void {
  if (checkDigitHolds(number)) return;
  throw unreadable(
    "wrong_check_digit",
    `The check digit of ${number} does not agree with its other digits.`,
    SCAN_AGAIN,
    number,
  );
}

const CHECKS: Record<string, (value: string, today: string) => unknown> = {
  csum: requireCheckDigit,
  yymmd0: (digits, today) => readDate(digits, today, true),
  yymmdd: (digits, today) => readDate(digits, today),
  hhmi: readTime,
  hh: readTime,
  mi: (digits) => readTime(`00${digits}`),
  ss: (digits) => readTime(`0000${digits}`),
  iso4217: requireCurrency,
  hyphen: (value) => requireOnly("-", "A sign", value),
  zero: (value) => requireOnly("0", "A digit kept free", value),
};

function requireCurrency(number: string): void {
  if (CURRENCY_NUMBERS.has(number)) return;
  throw unreadable("no_such_currency", `There is no currency ${number}.`, SCAN_AGAIN, number);
}

function requireOnly(character: string, what: string, value: string): void {
  if (value.replaceAll(character, "")) refuseShape(what, value);
}

const shapes = new Map<string, RegExp>();

function shapeOf(identifier: Identifier): RegExp {
  const before = shapes.get(identifier.ai);
  if (before) return before;
  let pattern = "";
  for (const part of identifier.parts.toReversed()) {
    pattern = `(${CHARACTERS[part.characters]}{${part.shortest},${part.longest}})${pattern}`;
    if (part.optional) pattern = `(?:${pattern})?`;
  }
  const made = new RegExp(`^${pattern}$`);
  shapes.set(identifier.ai, made);
  return made;
}

/** Refuse data that this identifier cannot have. */
export function checkValue(identifier: Identifier, value: string, today: string): void {
  const found = shapeOf(identifier).exec(value);
  if (!found) {
    const longest = identifier.parts.reduce((sum, part) => sum + part.longest, 0);
    const hint = value.length > longest ? "; perhaps the code lacks a separator" : "";
    refuseShape(`(${identifier.ai}) ${identifier.title}`, value, hint);
  }
  identifier.parts.forEach((part, at) => {
    const text = found?.[at + 1];
    if (text === undefined) return;
    for (const name of part.checks) CHECKS[name]?.(text, today);
  });
}

function refuseShape(what: string, value: string, hint = ""): never {
  throw unreadable(
    "value_does_not_fit",
    `${what} cannot be ${value}: its length or a character in it is wrong${hint}.`,
    SCAN_AGAIN,
    value,
  );
}
