import { role } from "../../door/session";
import { daysOn, lastDay, packDate } from "../../words/pack_date";
import type { Facts } from "./line_facts";
import { type LineState, mayOnlyHold, type Verdict } from "./line_state";

/** The last day a pack was to keep to, arriving today; lives count the day itself as day 1 (SL4). */
export function keepsTo(facts: Facts, today: string): string | null {
  const days = facts.line?.life_on_arrival_days;
  return days ? daysOn(today, days - 1) : null;
}

type Doubt = "past" | "short-dated" | "not ordered";

/** Why goods may not be accepted as they are; the house decides by the same. */
function doubted(facts: Facts, state: LineState, today: string): Doubt[] {
  const dated = state.kind.value === "none" ? null : state.date.value;
  const expected = keepsTo(facts, today);
  const found: Doubt[] = [];
  if (state.kind.value === "use_by" && dated && lastDay(dated) < today) found.push("past");
  if (dated && expected && lastDay(dated) < expected) found.push("short-dated");
  if (mayOnlyHold(facts)) found.push("not ordered");
  return found;
}

/** What will become of the line: what a person may not accept goes on hold. */
export function verdictOf(facts: Facts, state: LineState, today: string): Verdict {
  if (state.verdict.value === "refuse") return "refuse";
  const found = doubted(facts, state, today);
  const holds = found.includes("past") || (role.value === "porter" && found.length > 0);
  return holds || state.verdict.value === "hold" ? "hold" : "accept";
}

/** What a person at the door should know before the verdict, in words. */
export function doubts(facts: Facts, state: LineState, today: string): string[] {
  const found = doubted(facts, state, today);
  const dated = packDate(state.date.value ?? today);
  const said: Record<Doubt, string> = {
    past: `Its use-by was ${dated}. Nobody may use it: refuse it, or hold it for the chef.`,
    "short-dated": `It is dated ${dated}, and was to keep until ${packDate(keepsTo(facts, today) ?? today)}.`,
    "not ordered": "Nobody ordered it.",
  };
  const decides = role.value === "porter" && found.length > 0 && !found.includes("past");
  return [
    ...found.map((doubt) => said[doubt]),
    ...(decides ? ["It goes on hold: the chef decides."] : []),
  ];
}
