import type { BodyOf } from "../../door/command";
import type { MarkKind } from "../../door/rows";
import type { Facts } from "./line_facts";
import { degrees, inUnit, type LineState, LOOSE, packOf, type Verdict } from "./line_state";

/** What stops a line from being recorded: said in words, before anything is sent. */
export function missing(facts: Facts, state: LineState): string | null {
  const total = inUnit(state.total.value, facts.item.unit);
  if (facts.item.counted && (total === null || /^[0.]*$/.test(total))) {
    return "Say how much came, as a number above nothing; 1500 rather than 1,500.";
  }
  if (!state.area.value) return "Say where it goes.";
  const refused = state.verdict.value === "refuse";
  if (!refused && state.kind.value !== "none" && !state.date.value) {
    return "Read the date on the pack and enter it, or say that there is none.";
  }
  const warm = degrees(state.temperature.value);
  if (warm !== null && !/^-?\d{1,3}(\.\d)?$/.test(warm)) {
    return "Write the temperature as 3.4 or -18.";
  }
  if (refused && !state.reason.value.trim()) return "Say why it is refused.";
  return null;
}

/** `4 x 1 l carton`, or `1.2 kg` of what came loose. */
export function amountWords(facts: Facts, state: LineState): string {
  const pack = packOf(facts, state.pack.value);
  if (pack) return `${state.packs.value} x ${pack.pack}`;
  const typed = state.total.value.trim();
  return /[a-z]$/i.test(typed) || facts.item.unit === "each"
    ? typed
    : `${typed} ${facts.item.unit}`;
}

/** The body of `receive` for a batch of this id. */
export function receiveBody(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
  batch: string,
): BodyOf<"receive"> {
  const pack = state.pack.value === LOOSE ? undefined : state.pack.value;
  // the keys for the date give no other kinds
  const kind = state.kind.value as MarkKind;
  const date = kind === "none" ? null : state.date.value;
  const reason = state.reason.value.trim();
  const supplier = facts.order?.supplier_id ?? state.supplier.value.trim();
  const warm = degrees(state.temperature.value);
  return {
    batch,
    item: facts.item.id,
    quantity: {
      value: inUnit(state.total.value, facts.item.unit) ?? "0",
      unit: facts.item.unit,
    },
    area: state.area.value,
    verdict,
    ...(date ? { date_mark: { kind, date } } : { date_mark: { kind: "none" as const } }),
    ...(state.lot.value.trim() ? { lot: state.lot.value.trim() } : {}),
    ...(supplier ? { supplier } : {}),
    ...(facts.order_id ? { order: facts.order_id } : {}),
    ...(pack ? { pack, packs: state.packs.value } : {}),
    ...(warm === null ? {} : { temperature_c: warm }),
    ...(reason && verdict !== "accept" ? { reason } : {}),
  };
}
