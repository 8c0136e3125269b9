import type { HouseRow, ItemRow } from "../../door/rows";
import type { Recorded } from "./recorded";

type Area = HouseRow["areas"][number];

/** A line that was taken in and stands at the door until it is carried to its place. */
export interface ToPutAway {
  one: Recorded;
  area: string | null;
  kind: Area["kind"] | null;
  highRisk: boolean;
  /** Fruit, vegetables and herbs: they wilt, where dry goods wait. */
  produce: boolean;
  /** Raw food, which stands below what is eaten as it is. */
  raw: boolean;
}

/** Foods of a food-safety policy that come raw. */
const RAW = ["fish", "meat preparation", "mince", "offal", "poultry", "red meat", "live shellfish"];

/** Groups of a house book that are produce. */
const PRODUCE = ["fruit", "herbs", "vegetables"];

/** What was taken in, with where it goes; what was refused goes nowhere. */
export function toPutAway(ones: Recorded[], items: ItemRow[], areas: Area[]): ToPutAway[] {
  return ones
    .filter(({ verdict, kept }) => verdict !== "refuse" && !kept)
    .map((one) => {
      const item = items.find((each) => each.item === one.item);
      const area = areas.find((each) => one.more.includes(each.area));
      return {
        one,
        area: area?.area ?? null,
        kind: area?.kind ?? null,
        highRisk: item?.high_risk ?? false,
        produce: item ? PRODUCE.includes(item.group) : false,
        raw: item?.food ? RAW.includes(item.food.replaceAll("_", " ")) : false,
      };
    });
}

/**
 * The order in which it is carried away: what warms up first and is riskiest first. Chilled high-risk
 * food, frozen, other chilled, produce, then what is dry; on a hot day frozen before everything (common
 * practice, no source).
 */
export function inSafeOrder(all: ToPutAway[], hot: boolean): ToPutAway[] {
  const rank = ({ kind, highRisk, produce, raw }: ToPutAway) => {
    if (kind === "frozen") return hot ? 0 : 2;
    if (kind !== "chilled") return produce ? 4 : 5;
    return highRisk || raw ? 1 : 3;
  };
  const byArea = (one: ToPutAway, other: ToPutAway) =>
    (one.area ?? "").localeCompare(other.area ?? "");
  return [...all].sort((one, other) => rank(one) - rank(other) || byArea(one, other));
}
