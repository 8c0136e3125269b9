import type { HouseRow } from "../../door/rows";
import { type Scale, shownDegrees, tenths } from "../../words/temperature";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

type Limits = HouseRow["receiving"][number];

/** What a temperature comes to by the policy of the house. */
export type Warmth = "accept" | "ask" | "refuse";

/**
 * The limits a line is held against; undefined where nobody needs its temperature. The house judges by
 * the same: what goes into a freezer without a use-by was bought frozen.
 */
export function limitsOf(facts: Facts, state: LineState): Limits | undefined {
  const kind = facts.areas.find(({ id }) => id === state.area.value)?.kind;
  const { food, high_risk } = facts.item;
  // anchovies in a jar are no fresh fish
  if (kind === "ambient" && !high_risk) return undefined;
  const boughtFrozen = kind === "frozen" && (!food || state.kind.value !== "use_by");
  const receivedAs = boughtFrozen ? "frozen" : (food ?? kind);
  return facts.receiving.find((each) => each.food === receivedAs);
}

/** How warm it is by its limits; null where nothing that can be read was typed, or nobody needs it. */
export function warmthOf(facts: Facts, state: LineState): Warmth | null {
  const limits = limitsOf(facts, state);
  const found = tenths(state.temperature.value, facts.scale);
  return limits && found !== null ? judged(limits, found) : null;
}

/** Whether a temperature, in tenths of a degree Celsius, is taken in, asked about or refused. */
export function judged(limits: Limits, found: number): Warmth {
  const past = (limit: string) => {
    const at = tenths(limit) ?? 0;
    return limits.hot ? found < at : found > at;
  };
  if (past(limits.refuse_c)) return "refuse";
  return past(limits.accept_c) ? "ask" : "accept";
}

/** The limits in words, before anything is typed. */
export function limitWords(limits: Limits): string {
  const side = limits.hot ? "From" : "Up to";
  const past = limits.hot ? "colder" : "warmer";
  if (limits.accept_c === limits.refuse_c) {
    return `${side} ${limits.accept} it goes in; ${past} is refused.`;
  }
  return `${side} ${limits.accept} it goes in; ${past}, ask the chef; past ${limits.refuse} it is refused.`;
}

/** What is told of a temperature: yes, ask the chef, or no, with the limit it rests on. */
export function warmthWords(limits: Limits, warmth: Warmth, typed: string, scale: Scale): string {
  const said = shownDegrees(typed, scale);
  if (warmth === "accept") return `Yes: ${said} is within ${limits.accept}.`;
  if (warmth === "ask") return `Ask the chef: ${said} is past ${limits.accept}. It goes on hold.`;
  return `No: ${said} is past ${limits.refuse}. Refuse it. Nobody may accept it.`;
}

/** Where the limit in question stands. */
export function sourceOf(limits: Limits, warmth: Warmth | null): string {
  return warmth === "refuse" ? limits.refuse_source : limits.accept_source;
}
