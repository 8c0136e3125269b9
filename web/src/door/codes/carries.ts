import type { CodeRow, ItemRow, StockRow } from "../rows";
import type { Scan } from "./scan";
import { statedQuantity } from "./stated";

type Match = CodeRow["matches"][number];

/** A GTIN filled with zeros (GS1 General Specifications, section 3.3.2). */
const DIGITS = 14;

const NOTHING_MORE = { pack: null, pack_id: null, supplier: null, quantity: null, label: null };

/** The product's number, that of what is inside a unit, a shop's own; 14 digits each. */
function numbersOf(scan: Scan): Set<string> {
  const named = [scan.gtin, scan.content_gtin, scan.store_number?.number ?? null];
  return new Set(named.filter((number) => number !== null).map((one) => one.padStart(DIGITS, "0")));
}

const byId = (one: { id: string }, other: { id: string }) =>
  one.id < other.id ? -1 : Number(one.id > other.id);

/**
 * What in the house carries a code, in the house's own order: packs first, then items, then batches of those
 * items that carry the code's lot, then the batch whose label it is.
 */
export function carrying(
  scan: Scan,
  items: readonly ItemRow[],
  labelled: readonly StockRow[],
  stock: readonly StockRow[],
): Match[] {
  const numbers = numbersOf(scan);
  const carries = (gtin: string | null) => gtin !== null && numbers.has(gtin.padStart(DIGITS, "0"));
  const packs = items.flatMap((item) => packsOf(scan, item, carries)).sort(byId);
  const own = items
    .filter((item) => carries(item.gtin))
    .map((item) => ({
      ...ofItem("item", item.id, item),
      quantity: statedQuantity(scan, item, null),
    }))
    .sort(byId);
  const matched = new Set([...packs, ...own].map(({ item_id }) => item_id));
  const lots = stock.filter(
    ({ lot, item_id }) => lot !== null && lot === scan.lot && matched.has(item_id),
  );
  return [...packs, ...own, ...lots.map(ofBatch).sort(byId), ...labelled.map(ofBatch)];
}

function packsOf(scan: Scan, item: ItemRow, carries: (gtin: string | null) => boolean): Match[] {
  return item.packs
    .filter(({ gtin }) => carries(gtin))
    .map((pack) => ({
      ...ofItem("pack", pack.id, item),
      pack: pack.pack,
      pack_id: pack.id,
      supplier: pack.supplier,
      quantity: statedQuantity(scan, item, pack.quantity.value) ?? pack.quantity,
    }));
}

function ofItem(kind: Match["kind"], id: string, item: ItemRow): Match {
  return { kind, id, item: item.item, item_id: item.id, ...NOTHING_MORE };
}

function ofBatch(row: StockRow): Match {
  const { batch: id, item, item_id, label, on_hand: quantity } = row;
  return { ...NOTHING_MORE, kind: "batch", id, item, item_id, label, quantity };
}
