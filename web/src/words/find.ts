/** Finding something by a few letters of its name. */

import { SEPARATOR } from "../door/codes/separator";

/** Letters as they are compared: without accents or capitals. */
export function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().trim();
}

/** Whether a text is more likely a code than the beginning of a name. */
export function looksLikeCode(text: string): boolean {
  return text.includes(SEPARATOR) || /\d{7,}|^\]|^\(\d\d|^https?:/i.test(text.trim());
}

/**
 * How well a name answers to what was typed: 0 where it begins so, 1 where a word of it does,
 * 2 where the letters stand within it, null where they do not.
 */
export function answersTo(name: string, typed: string): number | null {
  const [whole, wanted] = [plain(name), plain(typed)];
  if (!wanted) return null;
  if (whole.startsWith(wanted)) return 0;
  if (whole.split(/[^\p{L}\p{N}]+/u).some((word) => word.startsWith(wanted))) return 1;
  return whole.includes(wanted) ? 2 : null;
}
