import { unquoted } from "./digital_link";

const HOUSE_LINK =
  /^(?:https|HTTPS|http|HTTP):\/\/[A-Za-z0-9.:\-[\]]+\/shelf\/([A-Za-z0-9\-._~:@!$&'()*+,;=%]+)$/;

/**
 * The label that the web address on a house's own label names, which is read and never fetched: `ADDRESS/shelf/LABEL`.
 * Whose address it is does not matter: a house may have moved to another.
 */
export function labelInLink(text: string): string | null {
  const named = HOUSE_LINK.exec(text)?.[1];
  return named === undefined ? null : unquoted(named);
}
