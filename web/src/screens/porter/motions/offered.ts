import type { StandingRow } from "../../../door/outbox/batch_parts";
import type { HouseRow, ItemRow, PickRow } from "../../../door/rows";
import { isNothing } from "../../../words/amounts";

export type Motion =
  | "decant"
  | "freeze"
  | "move"
  | "open"
  | "take_out"
  | "thaw"
  | "use"
  | "vacuum_pack";
export type Area = HouseRow["areas"][number];

/** What may be done with a batch as it stands, and what is not done with it, in words. */
export interface Offered {
  motions: Motion[];
  against: string[];
}

const PAST =
  "It is past its last day, or recalled: nobody uses it. Throw it away, or move it aside.";
const ON_HOLD = "It is on hold: the chef decides. Until then it is only moved, or thrown away.";
const THAWED = "What was thawed is not frozen again. What is cooked from it may be frozen, once.";

/**
 * What a person at the shelf may do with a batch. What would be unsafe is not offered and says why; the house
 * looks again when it has the record (SL2, SL3).
 */
export function offered(row: StandingRow): Offered {
  if (!row.usable) return { motions: ["move"], against: [PAST] };
  if (isNothing(row.available) && isNothing(row.promised) && !isNothing(row.on_hold)) {
    return { motions: ["move"], against: [ON_HOLD] };
  }
  if (row.state === "frozen") {
    return { motions: ["thaw", "take_out", "move", "open", "vacuum_pack"], against: [] };
  }
  const opening: Motion[] = row.state === "sealed" || row.state === "vacuum_packed" ? ["open"] : [];
  const usual: Motion[] = [...opening, "take_out", "use", "move", "decant", "vacuum_pack"];
  if (row.was_thawed) return { motions: usual, against: [THAWED] };
  return { motions: [...usual, "freeze"], against: [] };
}

/** Where what is frozen or thawed now is put, unless a person says otherwise; null where no place fits. */
export function placeFor(motion: "freeze" | "thaw", item: ItemRow, areas: Area[]): Area | null {
  const kind = motion === "freeze" ? "frozen" : "chilled";
  const fit = areas.filter((area) => area.kind === kind);
  return fit.find(({ id }) => id === item.area_id) ?? fit[0] ?? null;
}

/** A meal, or what is made for one, that something may be taken out for. */
export interface Purpose {
  service: string;
  preparation: string | null;
  /** What of this batch is picked for it; null: nothing of it. */
  quantity: PickRow["quantity"] | null;
  at: string;
}

/** What a batch may be taken out for: what it is picked for first, then the other meals, the soonest first. */
export function purposes(picks: PickRow[], batch: string): Purpose[] {
  const own = picks.filter((row) => row.batch === batch && !row.done);
  const named = new Set(own.map(({ service }) => service));
  const others = new Map<string, Purpose>();
  for (const { service, at } of picks) {
    if (!named.has(service))
      others.set(service, { service, preparation: null, quantity: null, at });
  }
  return [
    ...own.map(({ service, preparation, take, at }) => ({
      service,
      preparation,
      quantity: take,
      at,
    })),
    ...others.values(),
  ];
}

/** Whether a motion puts the batch where its new state belongs. */
export function isPlaced(motion: Motion): motion is "freeze" | "thaw" {
  return motion === "freeze" || motion === "thaw";
}
