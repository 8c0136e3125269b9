import { Refused } from "../problem";
import { type Element, IDENTIFIERS, type Identifier, known } from "./identifiers";
import { notACode, SCAN_AGAIN, unreadable } from "./refused";
import { SEPARATOR } from "./separator";
import { checkValue } from "./values";

/** The identifiers of food dates. */
const DATED = new Set(["11", "13", "15", "16", "17", "7003", "7006", "7007", "8008"]);

/** Elements in order, what nobody could read, and the warnings that go with it. */
export interface Reading {
  elements: Element[];
  unread: string[];
  warnings: string[];
}

/**
 * Cut a scanned text and check every element. A separator after data of fixed length, a doubled one and one
 * at the end are tolerated (GS1 General Specifications, section 7.8.6).
 */
export function readElementStrings(text: string, today: string): Reading {
  if (!text.replaceAll(SEPARATOR, "")) {
    throw unreadable("empty_code", "The code announces GS1 data and carries none.", SCAN_AGAIN);
  }
  const { elements, unread } = cut(text, today);
  return reading(text, elements, unread, lostSeparators(elements, today));
}

const BRACKETED = /\(([0-9]{2,4})\)((?:\\\(|[^(])+)/g;

/**
 * Read `(01)09521234543213(10)LOT42A`, as it is printed below a barcode. Blanks around data are dropped; a
 * bracket inside data is written `\(`.
 */
export function readBracketed(text: string, today: string): Reading {
  const pairs = [...text.matchAll(BRACKETED)].map(([, ai = "", value = ""]) => ({
    ai,
    value: value.replaceAll("\\(", "(").trim(),
  }));
  if (text.replace(BRACKETED, "").trim()) throw notACode(text);
  const elements = pairs.filter(({ ai }) => IDENTIFIERS.has(ai));
  for (const { ai, value } of elements) checkValue(known(ai), value, today);
  const unread = pairs
    .filter(({ ai }) => !IDENTIFIERS.has(ai))
    .map(({ ai, value }) => `(${ai})${value}`);
  return reading(text, elements, unread, []);
}

function reading(text: string, elements: Element[], unread: string[], warnings: string[]): Reading {
  if (elements.length === 0) throw notACode(text);
  const unknown = unread.length > 0 ? ["unknown_ai"] : [];
  return { elements, unread, warnings: [...unknown, ...warnings] };
}

/** The identifier that a text begins with. */
function beginsWith(text: string): Identifier | undefined {
  const size = [2, 3, 4].find((each) => IDENTIFIERS.has(text.slice(0, each)));
  return size === undefined ? undefined : IDENTIFIERS.get(text.slice(0, size));
}

function uptoSeparator(text: string): number {
  const at = text.indexOf(SEPARATOR);
  return at < 0 ? text.length : at;
}

function cut(text: string, today: string): { elements: Element[]; unread: string[] } {
  const elements: Element[] = [];
  const unread: string[] = [];
  let rest = withoutLeading(text);
  while (rest) {
    const identifier = beginsWith(rest);
    const length = identifier ? lengthOf(identifier, rest) : unknownLength(rest);
    const piece = rest.slice(0, length);
    if (identifier) {
      const value = piece.slice(identifier.ai.length);
      checkValue(identifier, value, today);
      elements.push({ ai: identifier.ai, value });
    } else unread.push(piece);
    rest = withoutLeading(rest.slice(length));
  }
  return { elements, unread };
}

function withoutLeading(text: string): string {
  let at = 0;
  while (text[at] === SEPARATOR) at += 1;
  return text.slice(at);
}

function lengthOf({ ai, fixedLength }: Identifier, rest: string): number {
  return fixedLength === null ? uptoSeparator(rest) : ai.length + fixedLength;
}

/**
 * Characters with the identifier, by its first two digits, for what is not yet assigned (GS1 General
 * Specifications, figure 7.8.4-2).
 */
function predefinedLength(beginning: string): number {
  if (beginning === "00") return 20;
  if (["01", "02", "03", "41"].includes(beginning)) return 16;
  if (beginning === "04") return 18;
  if (beginning === "20") return 4;
  const number = Number(beginning);
  if (number >= 11 && number <= 19) return 8;
  if (number >= 31 && number <= 36) return 10;
  return Number.POSITIVE_INFINITY;
}

function unknownLength(rest: string): number {
  if (!/^[0-9]{2}/.test(rest)) throw notACode(rest, `The rest ${rest}`);
  return Math.min(uptoSeparator(rest), predefinedLength(rest.slice(0, 2)));
}

function lostSeparators(elements: Element[], today: string): string[] {
  const present = new Set(elements.map(({ ai }) => ai));
  return elements
    .filter((one) => known(one.ai).fixedLength === null && hidesADate(one, present, today))
    .map(({ ai }) => (ai === "10" ? "lot_may_hide_a_date" : "value_may_hide_a_date"));
}

/** Whether the data could end earlier and go on in elements, with a date not given otherwise. */
function hidesADate(one: Element, present: Set<string>, today: string): boolean {
  for (let at = 1; at < one.value.length - 7; at += 1) {
    const tail = elementsAfter(one, at, today);
    if (tail.some(({ ai }) => DATED.has(ai) && !present.has(ai))) return true;
  }
  return false;
}

function elementsAfter(one: Element, at: number, today: string): Element[] {
  try {
    checkValue(known(one.ai), one.value.slice(0, at), today);
    const { elements, unread } = cut(one.value.slice(at), today);
    return unread.length > 0 ? [] : elements;
  } catch (error) {
    // the question is only whether it could be elements; what it is instead stays as it is
    if (error instanceof Refused) return [];
    throw error;
  }
}
