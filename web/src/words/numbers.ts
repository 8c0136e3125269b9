/** A decimal number as text with its point moved to the right; no floating point touches it. */
export function moved(value: string, places: number): string {
  const negative = value.startsWith("-");
  const [whole = "0", part = ""] = value.replace("-", "").split(".");
  const digits = whole + part;
  const point = whole.length + places;
  const padded = digits.padStart(digits.length + Math.max(0, 1 - point), "0");
  const at = Math.max(point, 1);
  const wide = padded.padEnd(at, "0");
  const left = wide.slice(0, at).replace(/^0+(?=\d)/, "");
  const right = wide.slice(at).replace(/0+$/, "");
  return `${negative ? "-" : ""}${left}${right ? `.${right}` : ""}`;
}

/** A decimal text to at most so many places, half up: for the eye only, never for what is sent. */
export function rounded(value: string, places: number): string {
  const [whole = "0", part = ""] = value.split(".");
  if (part.length <= places) return value;
  const kept = BigInt(whole.replace("-", "") + part.slice(0, places).padEnd(places, "0"));
  const up = (part[places] ?? "0") >= "5" ? 1n : 0n;
  const digits = String(kept + up).padStart(places + 1, "0");
  const sign = whole.startsWith("-") ? "-" : "";
  const right = places ? digits.slice(-places).replace(/0+$/, "") : "";
  return `${sign}${places ? digits.slice(0, -places) : digits}${right ? `.${right}` : ""}`;
}
