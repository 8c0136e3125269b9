import type { ReorderRow } from "../../../door/rows";

/** What is to be ordered for one delivery, and what it comes to, in minor units of one currency. */
export interface Together {
  key: string;
  supplier: string;
  orderBy: string;
  delivery: string;
  /** The open order it is added to; null where it is an order of its own. */
  order: string | null;
  lines: ReorderRow[];
  goods: number;
  charge: number;
  below: number;
  currency: string;
}

/** The lines of the report put together by delivery, the nearest deadline first; what is missed is in none. */
export function byDelivery(rows: ReorderRow[]): Together[] {
  const found = new Map<string, Together>();
  for (const row of rows) {
    const { supplier, order_by: orderBy, delivery, order } = row;
    if (row.alert === "missed" || !supplier || !orderBy || !delivery) continue;
    const key = `${supplier}|${delivery}`;
    const one = found.get(key) ?? {
      ...{ key, supplier, orderBy, delivery, order },
      lines: [],
      goods: 0,
      charge: row.charge.minor,
      below: 0,
      currency: row.cost.currency,
    };
    one.lines.push(row);
    one.goods += row.cost.minor;
    one.below = order ? 0 : Math.max(0, row.minimum.minor - one.goods);
    found.set(key, one);
  }
  return [...found.values()].sort((one, other) => one.orderBy.localeCompare(other.orderBy));
}
