import type { ComponentType } from "preact";
import type { Role } from "../door/session";
import { Days } from "./shared/days";
import { Doors } from "./shared/more";

/** One place of the house: its path, its name on a door, what may be read to enter it, its screen. */
export interface PlaceOf {
  to: string;
  name: string;
  reads: string;
  /** Whether it is a door of its own, or stands behind *More*. */
  door: boolean;
  screen: ComponentType;
}

/** Every place, in the order of the doors. */
export const PLACES: PlaceOf[] = [
  { to: "/more", name: "More", reads: "house", door: true, screen: Doors },
];

/** Where each role opens onto. */
export const FRONT: Record<Role, string> = {
  porter: "/goods-in",
  chef: "/menus",
  manager: "/deadlines",
  approver: "/menus",
};
