import type { PriceRow } from "../../door/rows";
import { answersTo } from "../../words/find";

const MOST = 6;

/** The packs of a supplier whose items answer to a few letters, the nearest first. */
export function packsFound(supplierId: string, prices: PriceRow[], typed: string): PriceRow[] {
  return prices
    .filter(({ supplier_id: id }) => id === supplierId)
    .map((row) => ({ row, rank: answersTo(row.item, typed) }))
    .filter(({ rank }) => rank !== null)
    .sort((one, other) => (one.rank ?? 0) - (other.rank ?? 0))
    .slice(0, MOST)
    .map(({ row }) => row);
}
