import type { CodeRow, ExpectedLine, ExpectedRow } from "../../door/rows";

/** One thing that a code or a name may mean at the door: a line of an order, or goods on none. */
export interface Key {
  order: ExpectedRow | null;
  line: ExpectedLine | null;
  item: string;
  item_id: string;
  /** The pack in hand, where it is known; it may be another than the one that was ordered. */
  pack_id: string | null;
  pack: string | null;
}

type Match = CodeRow["matches"][number];

/** Every line of these orders for an item. */
export function linesOf(item: string, orders: ExpectedRow[]): Key[] {
  return orders.flatMap((order) =>
    order.lines
      .filter((line) => line.item_id === item)
      .map((line) => ({ ...named(line), order, line })),
  );
}

/**
 * What a code may mean among these orders; one key where it is plain, several where a person must say.
 *
 * A pack that was ordered as it is scanned is plain. A single scanned where a case was ordered is not, nor a
 * number that several packs carry. Where nothing of it is ordered, the goods stand on no order.
 */
export function keysOf(matches: Match[], orders: ExpectedRow[]): Key[] {
  const packs = theirs(
    matches.filter((match) => match.kind === "pack"),
    orders,
  );
  const items = matches.filter((match) => match.kind === "item");
  const known = new Set([...packs, ...items].map((match) => match.item_id));
  const ordered = [...known].flatMap((item) => linesOf(item, orders));
  const exact = ordered.filter(({ pack_id }) => packs.some((pack) => pack.pack_id === pack_id));
  const others = packs
    .filter((pack) => !exact.some(({ pack_id }) => pack_id === pack.pack_id))
    .map((pack) => asIs(pack, ordered));
  if (exact.length > 0) return [...exact, ...others];
  if (packs.length > 0) return [...others, ...ordered];
  if (ordered.length > 0) return ordered;
  return items.map((item) => asIs(item, []));
}

/** The packs of whoever brings these orders, where the number is on one of theirs; else each kind once. */
function theirs(packs: Match[], orders: ExpectedRow[]): Match[] {
  const bring = new Set(orders.map((order) => order.supplier));
  const own = packs.filter((pack) => bring.has(pack.supplier ?? ""));
  if (own.length > 0) return own;
  const first = (pack: Match) => packs.find((each) => same(each, pack));
  return packs.filter((pack) => first(pack) === pack);
}

function same(one: Match, other: Match): boolean {
  return one.item_id === other.item_id && one.pack === other.pack;
}

/** A pack as it was scanned, on the line of its item where there is one. */
function asIs(match: Match, ordered: Key[]): Key {
  const on = ordered.find(({ item_id }) => item_id === match.item_id);
  return {
    order: on?.order ?? null,
    line: on?.line ?? null,
    item: match.item,
    item_id: match.item_id,
    pack_id: match.pack_id ?? null,
    pack: match.pack ?? null,
  };
}

function named({ item, item_id, pack, pack_id }: ExpectedLine) {
  return { item, item_id, pack, pack_id };
}

/** Where a key is received: its line, or its item within a delivery, or goods without an order. */
export function pathOf(key: Key, within: string | null): string {
  const order = key.order?.order ?? within ?? WITHOUT;
  const line = key.line ? key.line.pack_id.split("/").slice(1).join("/") : key.item_id;
  return `/goods-in/${order}/${line}`;
}

/** Where what stands at the door is put away. */
export const PUT_AWAY = "put-away";

/** What stands in the path in place of an order, for goods that nobody ordered. */
export const WITHOUT = "without-order";
