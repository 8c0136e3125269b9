import type { BodyOf } from "../../door/command";
import type { MarkKind } from "../../door/rows";
import { degrees } from "../../words/temperature";
import { inUnit } from "../../words/typed";
import { REPLACED } from "./instead";
import type { Facts } from "./line_facts";
import { type LineState, LOOSE, packOf, type Verdict } from "./line_state";
import { limitsOf, warmthOf } from "./warmth";

/** What stops a line from being recorded: said in words, before anything is sent. */
export function missing(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
  reason: string,
  mustSayWhy: boolean,
): string | null {
  const total = inUnit(state.total.value, facts.item.unit);
  if (facts.item.counted && (total === null || /^[0.]*$/.test(total))) {
    return "Say how much came, as a number above nothing; 1500 rather than 1,500 or 1.500.";
  }
  if (facts.item.in_pieces && !/^\d{0,3}$/.test(state.pieces.value.trim())) {
    return "Say how many pieces, as a whole number; or leave it empty.";
  }
  if (!state.area.value) return "Say where it goes.";
  const refused = verdict === "refuse";
  if (!refused && state.kind.value !== "none" && !state.date.value) {
    return "Read the date on the pack and enter it, or say that there is none.";
  }
  const warm = degrees(state.temperature.value);
  if (warm !== null && !/^-?\d{1,3}(\.\d)?$/.test(warm)) {
    return "Write the temperature as 3.4 or -18.";
  }
  if (reason) return null;
  if (refused) return "Say why it is refused.";
  if (mustSayWhy) return "Say why it is accepted all the same.";
  return null;
}

/** Why it is not accepted, or is all the same; what is past the last limit says so by itself. */
export function reasonOf(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
  mustSayWhy: boolean,
): string {
  if (verdict === "accept" && !mustSayWhy) return "";
  const said = state.reason.value.trim();
  if (said || warmthOf(facts, state) !== "refuse") return said;
  return limitsOf(facts, state)?.hot ? "too cold" : "too warm";
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
  reason: string,
  batch: string,
): BodyOf<"receive"> {
  const pack = state.pack.value === LOOSE ? undefined : state.pack.value;
  // the keys for the date give no other kinds
  const kind = state.kind.value as MarkKind;
  const date = kind === "none" ? null : state.date.value;
  const supplier = facts.order?.supplier_id ?? state.supplier.value.trim();
  const warm = limitsOf(facts, state) ? degrees(state.temperature.value) : null;
  const pieces = facts.item.in_pieces ? state.pieces.value.trim() : "";
  const instead = state.instead.value;
  return {
    batch,
    item: facts.item.id,
    quantity: {
      value: inUnit(state.total.value, facts.item.unit) ?? "0",
      unit: facts.item.unit,
      ...(pieces ? { pieces } : {}),
    },
    area: state.area.value,
    verdict,
    ...(date ? { date_mark: { kind, date } } : { date_mark: { kind: "none" as const } }),
    ...(state.lot.value.trim() ? { lot: state.lot.value.trim() } : {}),
    ...(supplier ? { supplier } : {}),
    ...(facts.order_id ? { order: facts.order_id } : {}),
    ...(pack ? { pack, packs: state.packs.value } : {}),
    ...(warm === null ? {} : { temperature_c: `${warm} ${facts.scale}` }),
    ...(reason ? { reason } : {}),
    ...(instead
      ? {
          instead: {
            item: instead.item_id,
            pack: instead.pack_id,
            replaces: state.ordered.value === REPLACED,
          },
        }
      : {}),
  };
}
