import { serviceName } from "../../parts/day_words";
import { dayName } from "../../words/time";

/** `Sat 13 Mar dinner, family`, or what is kept in whatever the menu. */
export function reason(because: string): string {
  if (because === "par") return "what is kept in";
  if (!because.includes("/")) return because.replaceAll("_", " ");
  return `${dayName(because.slice(0, 10))} ${serviceName(because)}`;
}
