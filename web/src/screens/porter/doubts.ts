import { daysOn, endOf, lastDay } from "../../door/house_days";
import { role } from "../../door/session";
import { few } from "../../words/amounts";
import { packDate } from "../../words/pack_date";
import { inWords } from "../../words/time";
import { type Instead, unlike } from "./instead";
import type { Facts } from "./line_facts";
import { type LineState, mayOnlyHold, type Verdict } from "./line_state";
import { warmthOf } from "./warmth";

/** The last day a pack was to keep to, arriving today; lives count the day itself as day 1 (SL4). */
export function keepsTo(facts: Facts, today: string): string | null {
  const days = facts.line?.life_on_arrival_days;
  return days ? daysOn(today, days - 1) : null;
}

/** The services that want it for longer than its date allows; a freezer stops its clock (AL1). */
export function tooShortFor(facts: Facts, state: LineState): string[] {
  const area = facts.areas.find(({ id }) => id === state.area.value);
  const dated = state.kind.value === "none" ? null : state.date.value;
  if (!dated || !facts.line || area?.kind === "frozen") return [];
  const until = Date.parse(endOf(lastDay(dated), facts.zone));
  return facts.line.wanted
    .filter((wanted) => Date.parse(wanted.until) > until)
    .map(({ service }) => service);
}

type Doubt = "past" | "warm" | "instead" | "short-dated" | "short for a service" | "not ordered";

/** What nobody at the door decides: it goes on hold, or is refused, whoever stands there. */
const HOLDS: ReadonlySet<Doubt> = new Set(["past", "warm"]);

/** Why goods may not be accepted as they are; the house decides by the same. */
function doubted(facts: Facts, state: LineState, today: string): Doubt[] {
  const dated = state.kind.value === "none" ? null : state.date.value;
  const expected = keepsTo(facts, today);
  const found: Doubt[] = [];
  if (warmthOf(facts, state) === "ask") found.push("warm");
  if (state.kind.value === "use_by" && dated && lastDay(dated) < today) found.push("past");
  if (state.instead.value) found.push("instead");
  if (dated && expected && lastDay(dated) < expected) found.push("short-dated");
  if (tooShortFor(facts, state).length > 0) found.push("short for a service");
  if (mayOnlyHold(facts, state) && !state.instead.value) found.push("not ordered");
  return found;
}

/** What will become of the line: what a person may not accept goes on hold, what is too warm is refused. */
export function verdictOf(facts: Facts, state: LineState, today: string): Verdict {
  const said = state.verdict.value;
  if (said === "refuse") return "refuse";
  if (said === "hold") return "hold";
  if (warmthOf(facts, state) === "refuse") return "refuse";
  const found = doubted(facts, state, today);
  const isBeyond = mayOnlyHold(facts, state) || (role.value === "porter" && found.length > 0);
  return isBeyond || found.some((doubt) => HOLDS.has(doubt)) ? "hold" : "accept";
}

/** Whether somebody who may accept a short date does, and has to say why. */
export function acceptsShort(facts: Facts, state: LineState, today: string): boolean {
  const found = doubted(facts, state, today);
  const isShort = found.includes("short-dated") || found.includes("short for a service");
  return isShort && verdictOf(facts, state, today) === "accept";
}

/** What is told where a line is refused that nobody has tapped so: its temperature does. */
export function refused(facts: Facts, { verdict, instead }: LineState): string[] {
  if (verdict.value === "refuse") return againstAgreed(facts, instead.value);
  return ["Its temperature is past the limit: it is refused, and nothing of it enters the stock."];
}

/** What was agreed with the supplier of sending another thing than was ordered. */
function againstAgreed({ order }: Facts, instead: Instead | null): string[] {
  if (!(instead && order)) return [];
  switch (order.substitution) {
    case "never":
      return [
        `${order.supplier} is to send nothing in place of what is ordered: it goes back, or is held for the chef.`,
      ];
    case "ask_first":
      return [`${order.supplier} was to ask before sending another thing.`];
    default:
      return [];
  }
}

/** What a person at the door should know before the verdict, in words. */
export function doubts(facts: Facts, state: LineState, today: string): string[] {
  const found = doubted(facts, state, today);
  const said = found.flatMap((doubt) => saidOf(doubt, facts, state, today));
  const isBeyond = mayOnlyHold(facts, state) || role.value === "porter";
  const decides = isBeyond && found.some((doubt) => !HOLDS.has(doubt));
  return decides ? [...said, "It goes on hold: the chef decides."] : said;
}

function saidOf(doubt: Doubt, facts: Facts, state: LineState, today: string): string[] {
  const dated = packDate(state.date.value ?? today);
  switch (doubt) {
    case "warm":
      // it is said where it was typed
      return [];
    case "past":
      return [`Its use-by was ${dated}. Nobody may use it: refuse it, or hold it for the chef.`];
    case "instead":
      return state.instead.value
        ? [...unlike(facts, state.instead.value), ...againstAgreed(facts, state.instead.value)]
        : [];
    case "short-dated":
      return [
        `It is dated ${dated}, and was to keep until ${packDate(keepsTo(facts, today) ?? today)}.`,
      ];
    case "short for a service":
      return [
        `It keeps until ${dated}; wanted for ${few(tooShortFor(facts, state).map(inWords))}.`,
      ];
    case "not ordered":
      return ["Nobody ordered it."];
  }
}
