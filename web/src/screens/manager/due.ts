import type { Money } from "../../door/quantities";
import type { Alert, PlanRow } from "../../door/rows";

/** One order that is to be placed: the rows of one supplier for one delivery. */
export interface Due {
  key: string;
  supplier: string;
  delivery: string;
  orderBy: string;
  alert: Alert;
  rows: Orderable[];
}

/** A row that some delivery can still make. */
export type Orderable = PlanRow & Record<"supplier" | "pack" | "delivery" | "order_by", string>;

const URGENCY: Alert[] = ["missed", "last_call", "open", "none"];

/** The rows to be ordered as orders, the nearest deadline first; what cannot be had any more is not among them. */
export function dueOrders(rows: PlanRow[]): Due[] {
  const found = new Map<string, Due>();
  for (const row of rows) {
    if (!isOrderable(row)) continue;
    const key = `${row.supplier}|${row.delivery}`;
    const due = found.get(key);
    if (due) {
      due.rows.push(row);
      if (row.order_by < due.orderBy) due.orderBy = row.order_by;
      if (URGENCY.indexOf(row.alert) < URGENCY.indexOf(due.alert)) due.alert = row.alert;
      continue;
    }
    found.set(key, {
      key,
      supplier: row.supplier,
      delivery: row.delivery,
      orderBy: row.order_by,
      alert: row.alert,
      rows: [row],
    });
  }
  return [...found.values()].sort((one, other) => one.orderBy.localeCompare(other.orderBy));
}

function isOrderable(row: PlanRow): row is Orderable {
  const { supplier, pack, delivery, order_by } = row;
  return row.alert !== "missed" && Boolean(supplier && pack && delivery && order_by);
}

/** What can no longer be had in time. */
export function tooLate(rows: PlanRow[]): PlanRow[] {
  return rows.filter((row) => row.alert === "missed");
}

/** What an order costs, in minor units; null where a price is not known. */
export function costOf(due: Due): Money | null {
  let minor = 0;
  for (const { cost } of due.rows) {
    if (!cost) return null;
    minor += cost.minor;
  }
  const currency = due.rows[0]?.cost?.currency;
  return currency ? { minor, currency } : null;
}
