/** Temperatures as a thermometer shows them, in whole tenths of a degree Celsius; no float touches them. */

export type Scale = "C" | "F";

const WRITTEN = /^(-?)(\d{1,3})(?:\.(\d))?$/;

/** What was typed as a temperature, as decimal text; null where nothing was. */
export function degrees(typed: string): string | null {
  const said = typed.trim().replace("−", "-").replace(",", ".");
  return said === "" || said === "-" ? null : said;
}

/** Tenths of a degree Celsius of what was typed on a scale; null where it is no temperature. */
export function tenths(typed: string, scale: Scale = "C"): number | null {
  const [, minus, whole, part = "0"] = WRITTEN.exec(degrees(typed) ?? "") ?? [];
  if (whole === undefined) return null;
  const shown = (minus ? -1 : 1) * (Number(whole) * 10 + Number(part));
  return scale === "C" ? shown : halfEven((shown - 320) * 5, 9);
}

/** A whole number divided by another, rounded half to the even as the house rounds. */
function halfEven(above: number, below: number): number {
  const whole = Math.floor(above / below);
  const rest = 2 * (above - whole * below) - below;
  if (rest === 0) return whole % 2 === 0 ? whole : whole + 1;
  return rest > 0 ? whole + 1 : whole;
}

/** `4.5 °C`, `−18 °C` of what was typed. */
export function shownDegrees(typed: string, scale: Scale): string {
  return `${(degrees(typed) ?? "").replace("-", "−")} °${scale}`;
}
