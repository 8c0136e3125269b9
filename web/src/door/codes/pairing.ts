import { type Element, known } from "./identifiers";
import { SCAN_AGAIN, unreadable } from "./refused";

/** Beginnings of the identifiers of a count or a net measure. */
const MEASURES = ["30", "31", "32", "35", "36"];

const CONTENT = "02";
const COUNT = "37";

/** Refuse elements that cannot be on one pack (GS1 Barcode Syntax Dictionary, attributes `ex`, `req`). */
export function refuseContradictions(elements: Element[]): void {
  elements.forEach((one, at) => {
    for (const other of elements.slice(at + 1)) refusePair(one, other);
  });
  const present = new Set(elements.map(({ ai }) => ai));
  if (present.has(CONTENT) && !present.has(COUNT)) {
    throw unreadable(
      "content_without_count",
      "The code names the product inside (02), but not how many there are (37).",
      "Count them and enter the count by hand.",
    );
  }
}

/** What only lacks a companion is a warning: a lot is often printed in a barcode of its own. */
export function pairingWarnings(elements: Element[]): string[] {
  const present = elements.map(({ ai }) => ai);
  const isLonely = present.some((ai) => !hasCompanions(ai, present));
  // a GTIN with indicator 9 is of goods sold by measure (GS1 General Specifications, section 2.1)
  const byMeasure = elements.some(({ ai, value }) => ai === "01" && value[0] === "9");
  const isMeasured = present.some((ai) => MEASURES.some((start) => ai.startsWith(start)));
  return [
    ...(isLonely ? ["companion_missing"] : []),
    ...(byMeasure && !isMeasured ? ["measure_missing"] : []),
  ];
}

function refusePair(one: Element, other: Element): void {
  if (one.ai === other.ai) {
    if (one.value === other.value) return;
    throw unreadable(
      "identifier_repeated",
      `The code gives (${one.ai}) twice: ${one.value} and ${other.value}.`,
      SCAN_AGAIN,
      other.value,
    );
  }
  if (contradicts(one.ai, other.ai) || contradicts(other.ai, one.ai)) {
    throw unreadable(
      "identifiers_contradict",
      `(${one.ai}) and (${other.ai}) cannot stand on one pack.`,
      SCAN_AGAIN,
      `(${one.ai})(${other.ai})`,
    );
  }
}

function contradicts(ai: string, other: string): boolean {
  return known(other).never.some((start) => ai.startsWith(start));
}

function hasCompanions(ai: string, present: string[]): boolean {
  const groups = known(ai).needs;
  const isThere = (start: string) => present.some((other) => other.startsWith(start));
  return groups.length === 0 || groups.some((group) => group.every(isThere));
}
