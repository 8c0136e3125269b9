import { lastDay, secondsOf } from "../house_days";
import type { StockRow } from "../rows";
import { frozen, type Life, ofMark, opened, type Thawing, thawed } from "../shelf_life";
import { reaching } from "../sums";
import type { Dated, Named, NamedItem, Part, StandingRow } from "./batch_parts";

export type Treating = "decant" | "freeze" | "open" | "thaw" | "vacuum_pack";

const UNKNOWN = { life: null, keepsMark: true, isHeld: false };

/**
 * The dates of what a treatment made of a part of a batch, by the rule that the house has (SL3).
 *
 * What safety forbids is done and on hold: frozen after its date, or thawed raw and frozen again. Where the house
 * never told its lives to this device, the life is not known here.
 */
export function treated(kind: Treating, { row, value }: Part, at: string, named: Named): Dated {
  const item = named.item(row.item_id);
  const parent = lifeOf(row);
  const keepsMark = kind !== "freeze" && kind !== "thaw";
  if (!parent || !item?.lives || !named.lives) return { ...UNKNOWN, at, keepsMark };
  const { zone } = named;
  const { lives } = item;
  const known = (life: Life | null) => ({ at, life, keepsMark, isHeld: false });
  switch (kind) {
    case "open":
      return known(opened(parent, at, openedBy(lives), zone));
    case "decant":
      return known(row.state === "sealed" ? opened(parent, at, openedBy(lives), zone) : parent);
    case "vacuum_pack":
      return known(opened(parent, at, { days: named.lives.vacuum_days }, zone));
    case "thaw":
      return known(thawed(parent, at, thawingOf(item, value, named.lives), zone));
    case "freeze": {
      const life = row.was_thawed ? null : frozen(parent, at, lives.frozen_days, zone);
      return life ? known(life) : notFrozenSafely(parent, at);
    }
  }
}

/** The dates of what came into the house, by its mark; what goes into a freezer with a use-by is frozen from then. */
export function arrived(
  mark: Partial<StockRow["date_mark"]> | null | undefined,
  item: NamedItem,
  isFrozen: boolean,
  at: string,
  zone: string,
): Dated {
  const kind = mark?.kind ?? "none";
  const date = mark?.date ? lastDay(mark.date) : null;
  if (date !== null && !/^\d{4}-\d\d-\d\d$/.test(date)) return { ...UNKNOWN, at };
  const fresh = ofMark(kind, date, zone, isFrozen && kind !== "use_by");
  const isPast = fresh.usable !== null && at > fresh.usable;
  if (isPast && isFrozen) return notFrozenSafely({ ...fresh, good: null }, at);
  if (!isFrozen || kind !== "use_by") return { at, life: fresh, keepsMark: true, isHeld: isPast };
  const life = item.lives ? frozen(fresh, at, item.lives.frozen_days, zone) : null;
  return { at, life, keepsMark: true, isHeld: false };
}

function notFrozenSafely(parent: Life, at: string): Dated {
  return { at, life: { ...parent, isFrozen: true, left: null }, keepsMark: true, isHeld: true };
}

/** A batch's life as its row tells it; null where it is not known on this device. */
function lifeOf(row: StandingRow): Life | null {
  if (row.isUntold) return null;
  const { usable_until: usable, good_until: good, left } = row;
  return { usable, good, isFrozen: row.state === "frozen", left };
}

type Lives = NonNullable<NamedItem["lives"]>;

function openedBy({ opened_days: days, opened_hours: hours }: Lives) {
  return { days, hours };
}

/** How an item thaws: so long whatever there is of it, or a step for every started weight. */
function thawingOf(item: NamedItem, value: string, house: NonNullable<Named["lives"]>): Thawing {
  const step = secondsOf(house.thaw_step) ?? 0;
  const steps = Math.max(1, reaching(value, String(house.thaw_weight_g)));
  const own = item.lives?.thaw_time;
  return {
    hours: item.lives?.thawed_hours ?? null,
    takes: own ? (secondsOf(own) ?? 0) : steps * step,
    counts: house.thawing_counts,
  };
}
