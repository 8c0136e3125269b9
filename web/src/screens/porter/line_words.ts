import { me } from "../../door/session";
import { less, sign } from "../../door/sums";
import { amount } from "../../words/amounts";
import { packDate } from "../../words/pack_date";
import { degrees, shownDegrees } from "../../words/temperature";
import { inUnit } from "../../words/typed";
import { amountWords } from "./line_body";
import type { Facts } from "./line_facts";
import type { LineState, Verdict } from "./line_state";
import type { Recorded } from "./recorded";
import { limitsOf } from "./warmth";

const mark = () => me.value?.house.decimal_mark ?? ".";

/** What a line was ordered as, in words under its name. */
export function orderedWords(facts: Facts, { instead }: LineState): string {
  const { order, order_id, line } = facts;
  if (instead.value) return `${order?.supplier ?? order_id} · instead of ${instead.value.item}`;
  if (!line) return order ? `${order.supplier} · not on the order` : "On no order";
  const of = `${order?.supplier ?? order_id} · ordered ${line.packs} x ${line.pack}`;
  if (!line.counted) return of;
  const open = sign(line.outstanding.value) > 0 ? amount(line.outstanding, mark()) : "nothing";
  return `${of}, ${amount(line.quantity, mark())}; ${open} awaited`;
}

/** How what came differs from what is awaited: short and over are amounts, said in words. */
export function differs(facts: Facts, state: LineState): string {
  const { line, item } = facts;
  const total = inUnit(state.total.value, item.unit);
  if (!line?.counted || total === null) return "";
  const over = less(total, line.outstanding.value);
  const said = (value: string) => amount({ value, unit: item.unit }, mark());
  if (sign(over) === 0) return "All that is awaited.";
  if (sign(over) > 0) return `${said(over)} more than awaited.`;
  return `${said(over.slice(1))} short; it stays awaited.`;
}

/** What is told of a line once it is recorded. */
export function toldOf(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
  reason: string,
): Omit<Recorded, "command" | "batch" | "kept"> {
  const area = facts.areas.find(({ id }) => id === state.area.value)?.area;
  const refused = verdict === "refuse";
  const more = [
    refused ? null : dateWords(state),
    refused ? null : area,
    state.lot.value.trim() && `lot ${state.lot.value.trim()}`,
    warmWords(facts, state, Boolean(limitsOf(facts, state))),
    state.instead.value && `instead of ${state.instead.value.item}`,
    reason,
  ];
  return {
    order: facts.order_id,
    item: facts.item.item,
    pack_id: facts.line?.pack_id ?? null,
    verdict,
    words: amountWords(facts, state),
    more: more.filter((part): part is string => Boolean(part)),
  };
}

function warmWords(facts: Facts, { temperature }: LineState, wanted: boolean): string | null {
  if (degrees(temperature.value) !== null) return shownDegrees(temperature.value, facts.scale);
  return wanted ? "temperature not taken" : null;
}

const KIND: Record<string, string> = { use_by: "use by", best_before: "best before" };

function dateWords({ kind, date }: LineState): string {
  if (kind.value === "none" || !date.value) return "no date";
  return `${KIND[kind.value]} ${packDate(date.value)}`;
}
