import type { Quantity } from "../../door/quantities";
import type { ExpectedLine, ExpectedRow, HouseRow, ItemRow } from "../../door/rows";
import type { Scale } from "../../words/temperature";

/** A pack that the line may have come in. */
export interface PackOf {
  id: string;
  pack: string;
  quantity: Quantity;
}

/** What is known of a line before the goods are looked at. */
export interface Facts {
  item: ItemRow;
  order: ExpectedRow | null;
  /** The order's id, also where all of it has come and it is expected no more. */
  order_id: string | null;
  line: ExpectedLine | null;
  packs: PackOf[];
  areas: HouseRow["areas"];
  suppliers: HouseRow["suppliers"];
  /** How warm each food may come in, with what is said wherever that is shown. */
  receiving: HouseRow["receiving"];
  caution: string;
  /** On which scale a thermometer of the house shows. */
  scale: Scale;
  /** Everything that is stocked, for what came instead of what. */
  items: ItemRow[];
  /** Numbers of labels that the house had reserved to be printed. */
  printed: HouseRow["numbers_printed"] | undefined;
  zone: string;
}

interface Asked {
  order: string | null;
  item: string;
  pack: string;
  orders: ExpectedRow[];
  items: ItemRow[];
  house: HouseRow | null;
  zone: string;
}

/** The facts of a line, or `gone` where the house knows neither the line nor the item. */
export function factsOf(asked: Asked): Facts | "gone" {
  const item = asked.items.find(({ id }) => id === asked.item);
  const order = asked.orders.find((each) => each.order === asked.order) ?? null;
  const line = order?.lines.find(({ pack_id }) => behind(pack_id) === behindOf(asked)) ?? null;
  if (!item || !asked.house || (asked.pack && !line)) return "gone";
  return {
    item,
    order,
    order_id: asked.order,
    line,
    packs: packsOf(item, line, order?.supplier ?? null),
    areas: asked.house.areas,
    suppliers: asked.house.suppliers,
    receiving: asked.house.receiving,
    caution: asked.house.caution,
    scale: asked.house.unit_system === "us" ? "F" : "C",
    items: asked.items,
    printed: asked.house.numbers_printed,
    zone: asked.zone,
  };
}

/** A pack's id is its supplier, item and name; the path has the order's supplier in front already. */
function behind(pack_id: string): string {
  return pack_id.split("/").slice(1).join("/");
}

function behindOf({ item, pack }: Asked): string {
  return `${item}/${pack}`;
}

/** The pack that was ordered first, then whoever brings it sells it in; anybody's where nobody is known. */
function packsOf(item: ItemRow, line: ExpectedLine | null, supplier: string | null): PackOf[] {
  const theirs = item.packs.filter((pack) => pack.supplier === supplier);
  const sold = theirs.length > 0 ? theirs : item.packs;
  return [...sold].sort((a, b) => Number(b.id === line?.pack_id) - Number(a.id === line?.pack_id));
}
