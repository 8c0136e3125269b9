/** Sums of decimal texts, exactly: quantities are added up without floating point. */

interface Exact {
  units: bigint;
  places: number;
}

function exact(value: string): Exact {
  const [whole = "0", part = ""] = value.replace("-", "").split(".");
  const units = BigInt(whole + part);
  return { units: value.startsWith("-") ? -units : units, places: part.length };
}

function written({ units, places }: Exact): string {
  const digits = String(units < 0n ? -units : units).padStart(places + 1, "0");
  const whole = places ? digits.slice(0, -places) : digits;
  const part = places ? digits.slice(-places).replace(/0+$/, "") : "";
  return `${units < 0n ? "-" : ""}${whole}${part ? `.${part}` : ""}`;
}

function aligned(one: string, other: string): [bigint, bigint, number] {
  const [a, b] = [exact(one), exact(other)];
  const places = Math.max(a.places, b.places);
  const at = (each: Exact) => each.units * 10n ** BigInt(places - each.places);
  return [at(a), at(b), places];
}

/** So many times a value: 6 times `0.75` is `4.5`. */
export function times(value: string, count: number): string {
  const { units, places } = exact(value);
  return written({ units: units * BigInt(count), places });
}

/** What is left of a value: `4.5` less `5` is `-0.5`. */
export function less(value: string, other: string): string {
  const [a, b, places] = aligned(value, other);
  return written({ units: a - b, places });
}

/** Below nothing, nothing, above nothing. */
export function sign(value: string): -1 | 0 | 1 {
  const { units } = exact(value);
  if (units === 0n) return 0;
  return units < 0n ? -1 : 1;
}

/** How many of a part it takes to reach a value, whole ones; none where the part is nothing. */
export function reaching(value: string, part: string): number {
  const [a, b] = aligned(value, part);
  if (b <= 0n || a <= 0n) return 0;
  return Number((a + b - 1n) / b);
}

/** Whether a text is a decimal number that is not below nothing. */
export function isNumber(value: string): boolean {
  return /^\d{1,9}(\.\d{1,6})?$/.test(value);
}

/** A value and another, together. */
export function plus(value: string, other: string): string {
  return less(value, other.startsWith("-") ? other.slice(1) : `-${other}`);
}
