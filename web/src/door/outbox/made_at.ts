import { inTheHouse } from "../clock";
import type { Entry } from "../store";

/** When a record of this device was made, by the house's clock: it may go by another (SY8). */
export function madeAt({ savedAt }: Pick<Entry, "savedAt">): string {
  return `${inTheHouse(savedAt).toISOString().slice(0, 19)}Z`;
}
