import { type Signal, useSignal } from "@preact/signals";
import type { MarkKind } from "../../door/rows";
import { role } from "../../door/session";
import { reaching, times } from "../../door/sums";
import type { InHand } from "./in_hand";
import { AWAITED, type Instead } from "./instead";
import type { Facts, PackOf } from "./line_facts";

export type Verdict = "accept" | "hold" | "refuse";

/** What is being said of the goods in hand; each a signal that a field or a key is bound to. */
export interface LineState {
  pack: Signal<string>;
  packs: Signal<number>;
  /** How much in all, in the item's unit, as decimal text. */
  total: Signal<string>;
  /** How many pieces it is too, of what is weighed and counted both. */
  pieces: Signal<string>;
  kind: Signal<string>;
  date: Signal<string | null>;
  lot: Signal<string>;
  area: Signal<string>;
  temperature: Signal<string>;
  verdict: Signal<string>;
  reason: Signal<string>;
  supplier: Signal<string>;
  /** What it came instead of. */
  instead: Signal<Instead | null>;
  /** Numbered labels that go on the batch, as they are printed. */
  labels: Signal<string[]>;
  /** Whether what was ordered still comes. */
  ordered: Signal<string>;
}

/** No pack: the goods came loose, and are weighed or counted. */
export const LOOSE = "";

export function useLine(facts: Facts, hand: InHand | null, instead: Instead | null): LineState {
  const pack = packOf(facts, firstPack(facts, hand));
  const packs = firstPacks(facts, hand, pack);
  return {
    pack: useSignal(pack?.id ?? LOOSE),
    packs: useSignal(packs),
    total: useSignal(hand?.quantity?.value ?? (pack ? times(pack.quantity.value, packs) : "")),
    pieces: useSignal(""),
    kind: useSignal<string>(hand?.read.date_mark?.kind ?? proposedKind(facts)),
    date: useSignal(hand?.read.date_mark?.date ?? null),
    lot: useSignal(hand?.read.lot ?? ""),
    area: useSignal(facts.line?.area_id ?? facts.item.area_id ?? ""),
    temperature: useSignal(""),
    verdict: useSignal<string>(firstVerdict(facts, instead)),
    reason: useSignal(goesBack(facts, instead) ? "wrong goods" : ""),
    supplier: useSignal(facts.order?.supplier ?? ""),
    instead: useSignal(instead),
    labels: useSignal<string[]>([]),
    ordered: useSignal(AWAITED),
  };
}

/** Whether it was agreed that nothing comes in place of what is ordered: it begins as refused. */
export function goesBack(facts: Facts, instead: Instead | null): boolean {
  return instead !== null && facts.order?.substitution === "never";
}

function firstVerdict(facts: Facts, instead: Instead | null): Verdict {
  if (goesBack(facts, instead)) return "refuse";
  return facts.line ? "accept" : "hold";
}

export function packOf(facts: Facts, id: string): PackOf | undefined {
  return facts.packs.find((pack) => pack.id === id);
}

function firstPack(facts: Facts, hand: InHand | null): string {
  const scanned = hand?.pack_id && packOf(facts, hand.pack_id);
  return scanned ? scanned.id : (facts.line?.pack_id ?? facts.packs[0]?.id ?? LOOSE);
}

/** As many as are still awaited; one where all of them came or none was ordered. */
function firstPacks(facts: Facts, hand: InHand | null, pack: PackOf | undefined): number {
  if (!pack) return 1;
  if (hand?.quantity) return Math.max(1, reaching(hand.quantity.value, pack.quantity.value));
  if (!facts.line?.counted) return facts.line?.packs ?? 1;
  return Math.max(1, reaching(facts.line.outstanding.value, pack.quantity.value));
}

/** What hurts people has a use-by; what nobody counts and what grows has often no date at all. */
function proposedKind(facts: Facts): MarkKind {
  if (facts.item.high_risk) return "use_by";
  return facts.item.counted ? "best_before" : "none";
}

/** Whether it is beyond a person at the door to accept it: what nobody ordered, or another thing came. */
export function mayOnlyHold(facts: Facts, { instead }: LineState): boolean {
  if (instead.value) return role.value !== "chef";
  return facts.line === null && role.value === "porter";
}
