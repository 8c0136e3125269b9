/** How many figures a PIN has. */
export const SHORTEST = 4;
export const LONGEST = 8;

const ROW = "01234567890 9876543210";

/** Whether these figures may be a PIN; not those that are tried first: one again and again, a row. */
export function fitsAsPin(pin: string): boolean {
  const hasLength = new RegExp(`^[0-9]{${SHORTEST},${LONGEST}}$`).test(pin);
  return hasLength && new Set(pin).size > 1 && !ROW.includes(pin);
}
