import type { HouseRow, ItemRow, StockRow } from "./rows";

type Area = HouseRow["areas"][number];

/** What is wrong with a place, the most urgent first. */
const ORDER = ["thaws", "warm", "not_frozen"] as const;
export type Wrong = (typeof ORDER)[number];

/** What is known of a batch where it stands. */
interface Where {
  place: Area["kind"];
  state: StockRow["state"];
  /** The kind of its item's own storage area; null: it has none. */
  home: Area["kind"] | null;
  was_thawed: boolean;
  high_risk: boolean;
}

/** What is wrong with a place for a batch; null: nothing that is known. The house has the same rule. */
export function wrongPlace({ place, state, home, was_thawed, high_risk }: Where): Wrong | null {
  // ice cream that was made here is kept in the freezer by the house's own word
  if (place === "frozen") return state === "frozen" || home === "frozen" ? null : "not_frozen";
  const cameFrozen = home === "frozen" && state === "sealed" && !was_thawed;
  if (state === "frozen" || cameFrozen) return "thaws";
  if (place === "chilled") return null;
  const isCold = home === "chilled" || home === "frozen" || was_thawed;
  const isRisk = high_risk && home === null;
  return isCold || isRisk ? "warm" : null;
}

/** A batch that stands in the wrong place, and where it is moved to; null: the house has no such place. */
export interface Misplaced {
  wrong: Wrong;
  row: StockRow;
  area: Area;
  quantity: StockRow["on_hand"];
  into: Area | null;
}

/** What stands in the wrong place, by what this device knows of the shelf, the most urgent first. */
export function misplaced(rows: StockRow[], areas: Area[], items: ItemRow[]): Misplaced[] {
  const places = new Map(areas.map((area) => [area.area, area]));
  const known = new Map(items.map((item) => [item.id, item]));
  const found = rows.flatMap((row) => {
    const item = known.get(row.item_id);
    const home = item?.area ? places.get(item.area) : undefined;
    return Object.entries(row.areas).flatMap(([name, quantity]): Misplaced[] => {
      const area = places.get(name);
      if (!area || !item) return [];
      const { state, was_thawed } = row;
      const { high_risk } = item;
      const where = { place: area.kind, state, home: home?.kind ?? null, was_thawed, high_risk };
      const wrong = wrongPlace(where);
      if (!wrong) return [];
      return [{ wrong, row, area, quantity, into: placeOf(wrong, home, areas) }];
    });
  });
  return found.sort((one, other) => ORDER.indexOf(one.wrong) - ORDER.indexOf(other.wrong));
}

function placeOf(wrong: Wrong, home: Area | undefined, areas: Area[]): Area | null {
  if (wrong === "not_frozen" && home) return home;
  const kind = wrong === "thaws" ? "frozen" : "chilled";
  if (home?.kind === kind) return home;
  return areas.find((area) => area.kind === kind) ?? null;
}
