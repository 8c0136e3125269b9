import { signal } from "@preact/signals";
import type { ItemRow } from "../../door/rows";
import { listed } from "../../words/amounts";
import type { Facts } from "./line_facts";

/** A line that was ordered and of which another thing came. */
export interface Instead {
  item: string;
  item_id: string;
  pack_id: string;
}

/** What the goods in hand came instead of, on its way to the line that it opens. */
export const cameInstead = signal<Instead | null>(null);

/** What the line of the order becomes: it still comes, or nothing more of it does. */
export const AWAITED = "awaited";
export const REPLACED = "replaced";

/** What is known of the allergens of what came that was not so of what was ordered (AL3). */
export function unlike(facts: Facts, { item, item_id }: Instead): string[] {
  const ordered = facts.items.find(({ id }) => id === item_id);
  if (!ordered) return [];
  const { contains, may_contain, unknown } = facts.item;
  const known = (of: ItemRow) => [...of.contains, ...of.may_contain, ...of.unknown];
  const more = (names: string[], but: string[]) => names.filter((name) => !but.includes(name));
  const says: [string, string[]][] = [
    ["it contains", more(contains, ordered.contains)],
    ["it may contain", more(may_contain, [...ordered.contains, ...ordered.may_contain])],
    ["nobody knows whether it is free of", more(unknown, known(ordered))],
  ];
  return says
    .filter(([, names]) => names.length > 0)
    .map(([says, names]) => `Unlike ${item}, ${says} ${listed(names)}: read the label.`);
}
