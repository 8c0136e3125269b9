import { LINK, readLink } from "./digital_link";
import { type Reading, readBracketed, readElementStrings } from "./element_strings";
import { labelInLink } from "./house_link";
import { withMeaning } from "./meaning";
import { isRetail, PLAIN, retailNumber, withProductNumber } from "./product_numbers";
import { notACode } from "./refused";
import { type Scan, silent } from "./scan";
import { SEPARATOR } from "./separator";

/** GS1-128, DataBar, DataMatrix, QR, DotCode (GS1 General Specifications, figure 5.1.2-2). */
const ELEMENT_STRINGS = new Set(["]C1", "]e0", "]d2", "]Q3", "]J1"]);

/** A symbology identifier (ISO/IEC 15424). */
const SYMBOLOGY = /^\][A-Za-z][0-9A-Za-z]/;

/** How a person types the separator. */
const WRITTEN_SEPARATOR = "<GS>";

/** Digits in the largest QR Code, the most that any code holds (ISO/IEC 18004, from memory). */
const LONGEST_CODE = 7089;

/** A text without identifier or separator that is nevertheless taken for element strings. */
const BEGINS_WITH_KEY = /^(?:(?:01|02)[0-9]{14}|00[0-9]{18})/;

/** What the house prints on its own labels. */
const HOUSE_LABEL = /^(?:[0-9]{4,7}|(?=.*[A-Z-])[A-Z0-9-]{4,20})$/;

/**
 * What a scanned, pasted or typed text says, as the house reads it: what `pantry/rules/codes` says of it, in
 * the same order, with the same refusals. `today` is the house's civil date, which decides centuries.
 */
export function read(text: string, today: string): Scan {
  if (text.length > LONGEST_CODE) {
    throw notACode(text.slice(0, LONGEST_CODE), `A text of ${text.length} characters`);
  }
  // not trim(), which would take the separator away too
  const cleaned = text
    .replaceAll(WRITTEN_SEPARATOR, SEPARATOR)
    .replace(/^[ \t\r\n]+|[ \t\r\n]+$/g, "");
  const symbology = SYMBOLOGY.exec(cleaned)?.[0] ?? null;
  const data = cleaned.slice(symbology?.length ?? 0);
  const scan = silent(symbology);
  if (isRetail(symbology)) return withProductNumber(scan, retailNumber(symbology, data));
  const isAnnounced = symbology !== null && ELEMENT_STRINGS.has(symbology);
  if (!isAnnounced) {
    if (PLAIN.test(data)) return withProductNumber(scan, data);
    if (HOUSE_LABEL.test(data) && !BEGINS_WITH_KEY.test(data)) return { ...scan, label: data };
  }
  const linked = labelInLink(data);
  if (linked !== null) return { ...scan, label: linked };
  return withMeaning(scan, readingOf(data, today, isAnnounced), today);
}

function readingOf(data: string, today: string, isAnnounced: boolean): Reading {
  if (data.startsWith("(")) return readBracketed(data, today);
  if (isAnnounced || data.startsWith(SEPARATOR)) return readElementStrings(data, today);
  if (LINK.test(data)) return readLink(data, today);
  if (BEGINS_WITH_KEY.test(data)) {
    const reading = readElementStrings(data, today);
    if (reading.unread.length === 0) return reading;
  }
  throw notACode(data, data ? "" : "Nothing");
}
