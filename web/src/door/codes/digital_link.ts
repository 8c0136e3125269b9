import type { Refused } from "../problem";
import type { Reading } from "./element_strings";
import { type Element, IDENTIFIERS, known } from "./identifiers";
import { unreadable } from "./refused";
import { checkValue } from "./values";

const BY_HAND = "Enter what is printed on the pack by hand.";

/** How a text begins that is taken for a web address. */
export const LINK = /^https?:\/\//i;

/** Scheme in one case, domain, path, query, fragment. */
const ADDRESS = new RegExp(
  String.raw`^(?:https|HTTPS|http|HTTP)://[A-Za-z0-9.:\-\[\]]+` +
    String.raw`(/[A-Za-z0-9\-._~:/\[\]@!$&'()*+,;=%]*)` +
    String.raw`(?:\?([A-Za-z0-9\-._~:/?\[\]@!$&'()*+,;=%]*))?` +
    String.raw`(?:#[A-Za-z0-9\-._~:/?#\[\]@!$&'()*+,;=%]*)?$`,
);

/**
 * The elements of a GS1 Digital Link, which is read and never fetched: key, qualifiers, attributes (GS1
 * Digital Link Standard: URI Syntax). A `+` in the path is a plus, in the query a blank.
 */
export function readLink(text: string, today: string): Reading {
  const found = ADDRESS.exec(text);
  if (!found) {
    throw refused("link_unreadable", `${text} is not written as a web address is.`, text);
  }
  const path = pathElements(found[1] ?? "", text);
  const query = queryElements(found[2] ?? "");
  checkOrder(path.map(({ ai }) => ai));
  checkPlaces(
    path.map(({ ai }) => ai),
    query.map(({ ai }) => ai),
  );
  const elements = [...path, ...query];
  for (const one of elements) check(one, today);
  return { elements, unread: [], warnings: [] };
}

/** Text without its escapes; what is no escape stays, and bytes that are no UTF-8 become U+FFFD. */
export function unquoted(text: string): string {
  return text.replace(/(?:%[0-9a-f]{2})+/gi, (run) => {
    const bytes = run.match(/[0-9a-f]{2}/gi)?.map((pair) => Number.parseInt(pair, 16)) ?? [];
    return new TextDecoder("utf-8", { ignoreBOM: true }).decode(new Uint8Array(bytes));
  });
}

/** Pairs from the right, as far as the first key met; what stands before it is a stem. */
function pathElements(path: string, text: string): Element[] {
  const segments = path.split("/").slice(1);
  const elements: Element[] = [];
  for (let at = segments.length - 2; at >= 0; at -= 2) {
    const identifier = IDENTIFIERS.get(segments[at] ?? "");
    if (!identifier) break;
    elements.unshift({ ai: identifier.ai, value: unquoted(segments[at + 1] ?? "") });
    if (identifier.qualifiers) return elements;
  }
  throw refused("link_without_product", `The address ${text} names no product.`, text);
}

function queryElements(query: string): Element[] {
  return query
    .split("&")
    .map((part) => /^([0-9]+)=(.*)$/s.exec(part))
    .filter((pair) => pair !== null)
    .map(([, ai = "", value = ""]) => attribute(ai, value));
}

function attribute(ai: string, value: string): Element {
  if (!IDENTIFIERS.has(ai)) {
    throw refused("link_identifier_unknown", `Nobody knows the identifier ${ai}.`, ai);
  }
  const text = unquoted(value.replaceAll("+", " "));
  // here, unlike in the path, the standard lets a GTIN of 8, 12 or 13 digits stand
  const isShortened = ai === "01" && [8, 12, 13].includes(text.length);
  return { ai, value: isShortened ? text.padStart(14, "0") : text };
}

function check({ ai, value }: Element, today: string): void {
  if (!value) throw refused("link_value_empty", `The address names (${ai}) without data.`, ai);
  checkValue(known(ai), value, today);
}

function checkOrder([key = "", ...after]: string[]): void {
  const sequences = known(key).qualifiers ?? [];
  if (after.length === 0 || sequences.some((sequence) => follows(after, sequence))) return;
  const written = after.join(", ");
  throw refused(
    "link_out_of_order",
    `After (${key}) cannot stand ${written} in that order.`,
    written,
  );
}

function follows(path: string[], sequence: string[]): boolean {
  const places = path.map((ai) => sequence.indexOf(ai));
  return places.every((place, at) => place >= 0 && (at === 0 || (places[at - 1] ?? 0) < place));
}

function checkPlaces(path: string[], query: string[]): void {
  const [key = "", ...after] = path;
  const sequences = known(key).qualifiers ?? [];
  query.forEach((ai, at) => {
    const isRepeated = path.includes(ai) || query.slice(0, at).includes(ai);
    const belongsInPath = sequences.some((sequence) =>
      [...after, ai].every((one) => sequence.includes(one)),
    );
    if (isRepeated || belongsInPath || !known(ai).attribute) {
      throw refused(
        "link_identifier_misplaced",
        `(${ai}) cannot stand in the query of this address.`,
        ai,
      );
    }
  });
}

function refused(code: string, detail: string, value: string): Refused {
  return unreadable(code, detail, BY_HAND, value);
}
