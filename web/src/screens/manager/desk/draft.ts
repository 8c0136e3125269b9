import type { Money } from "../../../door/quantities";
import type { Alert, OrderRow, PlanRow, PriceRow, SupplierRow } from "../../../door/rows";
import { dueOrders, type Orderable } from "../due";

/** One delivery of a supplier at the order desk: what is lacking, and the orders that are placed for it. */
export interface Delivery {
  key: string;
  supplier: string;
  supplierId: string;
  delivery: string;
  /** Null where its calendar has no such delivery, or none in the weeks that are told. */
  orderBy: string | null;
  alert: Alert;
  due: Orderable[];
  /** Open ones only; the first is the one that is amended. */
  orders: OrderRow[];
}

/** What somebody changed of a draft on this device: packs by `ITEM|PACK`, and lines in words. */
export interface Changed {
  packs: Record<string, number>;
  free: Free[];
}

export interface Free {
  words: string;
  amount: string | null;
  asked: string | null;
}

/** A line of a draft: `packs` are to be on the order, `proposed` of them without a person's change. */
export interface DraftLine {
  key: string;
  item: string;
  pack: string;
  packs: number;
  proposed: number;
  /** How many are on the open order already. */
  ordered: number;
  due: Orderable | null;
  price: PriceRow | null;
}

/** What a draft comes to, in minor units of one currency; `unpriced` lines are in none of the sums. */
export interface Sums {
  goods: Money;
  charge: Money;
  total: Money;
  /** How far the goods lie below the supplier's minimum. */
  below: Money;
  unpriced: number;
}

export const keyOf = ({ item, pack }: { item: string; pack: string }): string => `${item}|${pack}`;

/** Every delivery that is due, ordered, or the next one of a supplier; the nearest deadline first. */
export function deliveriesOf(
  plan: PlanRow[],
  orders: OrderRow[],
  suppliers: SupplierRow[],
  now: number,
): Delivery[] {
  const found = new Map<string, Delivery>();
  for (const row of suppliers) {
    const next = row.coming.filter(({ order_by: by }) => by && Date.parse(by) > now);
    for (const each of next.slice(0, 1)) add(found, row, each.delivery ?? "");
  }
  for (const due of dueOrders(plan)) {
    const row = suppliers.find(({ supplier }) => supplier === due.supplier);
    if (!row) continue;
    const delivery = add(found, row, due.delivery);
    delivery.due = due.rows;
    delivery.alert = due.alert;
    delivery.orderBy = due.orderBy;
  }
  for (const order of orders.filter(({ state }) => state === "open")) {
    const row = suppliers.find(({ id }) => id === order.supplier_id);
    if (row) add(found, row, order.delivery).orders.push(order);
  }
  const last = "9999";
  return [...found.values()].sort((one, other) =>
    (one.orderBy ?? last).localeCompare(other.orderBy ?? last),
  );
}

function add(found: Map<string, Delivery>, row: SupplierRow, delivery: string): Delivery {
  const key = `${row.id}/${delivery}`;
  const before = found.get(key);
  if (before) return before;
  const planned = row.coming.find((each) => each.delivery === delivery);
  const made: Delivery = {
    key,
    supplier: row.supplier,
    supplierId: row.id,
    delivery,
    orderBy: planned?.order_by ?? null,
    alert: "none",
    due: [],
    orders: [],
  };
  found.set(key, made);
  return made;
}

/** The lines of a draft: what is on the open order, what is lacking besides, and what a person changed. */
export function draftLines(of: Delivery, prices: PriceRow[], changed: Changed): DraftLine[] {
  const sold = prices.filter(({ supplier_id: id }) => id === of.supplierId);
  const found = new Map<string, DraftLine>();
  const line = (item: string, pack: string): DraftLine => {
    const key = keyOf({ item, pack });
    const before = found.get(key);
    if (before) return before;
    const price = sold.find((each) => keyOf(each) === key) ?? null;
    const made = { key, item, pack, packs: 0, proposed: 0, ordered: 0, due: null, price };
    found.set(key, made);
    return made;
  };
  for (const ordered of of.orders[0]?.lines ?? []) {
    line(ordered.item, ordered.pack).ordered += ordered.packs;
  }
  for (const due of of.due) {
    const one = line(due.item, due.pack);
    one.due = due;
    one.proposed += due.packs;
  }
  for (const key of Object.keys(changed.packs)) {
    const price = sold.find((each) => keyOf(each) === key);
    if (price) line(price.item, price.pack);
  }
  for (const one of found.values()) {
    one.proposed += one.ordered;
    one.packs = changed.packs[one.key] ?? one.proposed;
  }
  return [...found.values()].sort((one, other) => one.item.localeCompare(other.item));
}

/** What the lines that stand come to. */
export function sumsOf(lines: DraftLine[], free: Free[], supplier: SupplierRow): Sums {
  const { currency } = supplier.charge;
  const of = (minor: number): Money => ({ minor, currency });
  const standing = lines.filter(({ packs }) => packs > 0);
  const goods = standing.reduce(
    (sum, { packs, price }) => sum + packs * (price?.price.minor ?? 0),
    0,
  );
  const charge = standing.length + free.length > 0 ? supplier.charge.minor : 0;
  return {
    goods: of(goods),
    charge: of(charge),
    total: of(goods + charge),
    below: of(standing.length > 0 ? Math.max(0, supplier.minimum.minor - goods) : 0),
    unpriced: standing.filter(({ price }) => !price?.price.minor).length + free.length,
  };
}

/** The free lines of a draft: those that were changed, or else those of the open order. */
export function freeOf(of: Delivery, changed: Free[] | null): Free[] {
  return changed ?? of.orders[0]?.free ?? [];
}

/** Whether the draft is anything else than what is ordered already. */
export function isNews(of: Delivery, lines: DraftLine[], free: Free[]): boolean {
  const wasFree = of.orders[0]?.free ?? [];
  return (
    lines.some(({ packs, ordered }) => packs !== ordered) ||
    JSON.stringify(free) !== JSON.stringify(wasFree)
  );
}

/** The lines as a command has them. */
export function asLines(lines: DraftLine[]): { item: string; pack: string; packs: number }[] {
  return lines
    .filter(({ packs }) => packs > 0)
    .map(({ item, pack, packs }) => ({ item, pack, packs }));
}

/** The Monday of a civil date's week (ISO 8601). */
export function mondayOf(day: string): string {
  const at = new Date(`${day}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() - ((at.getUTCDay() + 6) % 7));
  return at.toISOString().slice(0, 10);
}
