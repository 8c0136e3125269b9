import type { ComponentType } from "preact";
import type { Kind } from "../door/command";
import type { ReportName } from "../door/rows";
import type { Role } from "../door/session";
import { Menus } from "./chef/menus";
import { UseFirst } from "./chef/use_first";
import { Book } from "./manager/book";
import { Deadlines } from "./manager/deadlines";
import { FirstSteps } from "./manager/first_steps";
import { People } from "./manager/people";
import { GoodsIn } from "./porter/goods_in";
import { Shelf } from "./porter/shelf";
import { Days } from "./shared/days";
import { More } from "./shared/more";
import { Morning } from "./shared/morning";
import { Questions } from "./shared/questions";

/** One place of the house: its path, its name on a door, what may be read to enter it, its screen. */
export interface PlaceOf {
  to: string;
  name: string;
  reads: ReportName;
  /** What must be allowed to be given, where reading is not enough. */
  gives?: Kind;
  /** Whether it is a door of its own; otherwise it stands behind *More*. */
  door: boolean;
  screen: ComponentType;
}

/** Every place, in the order of the doors. */
export const PLACES: PlaceOf[] = [
  { to: "/deadlines", name: "Deadlines", reads: "plan", door: true, screen: Deadlines },
  { to: "/menus", name: "Menus", reads: "menus", door: true, screen: Menus },
  { to: "/goods-in", name: "Goods in", reads: "expected", door: true, screen: GoodsIn },
  { to: "/more", name: "More", reads: "house", door: true, screen: More },
  { to: "/days", name: "The next days", reads: "days", door: false, screen: Days },
  { to: "/morning", name: "Morning sheet", reads: "morning", door: false, screen: Morning },
  { to: "/shelf", name: "What is on the shelf", reads: "stock", door: false, screen: Shelf },
  {
    to: "/use-first",
    name: "What must be used first",
    reads: "use-first",
    door: false,
    screen: UseFirst,
  },
  { to: "/questions", name: "Questions", reads: "questions", door: false, screen: Questions },
  { to: "/people", name: "People", reads: "people", door: false, screen: People },
  {
    to: "/book",
    name: "Bring in a house book",
    reads: "people",
    gives: "import_book",
    door: false,
    screen: Book,
  },
  {
    to: "/first-steps",
    name: "First steps",
    reads: "people",
    gives: "import_book",
    door: false,
    screen: FirstSteps,
  },
];

/** Where each role opens onto. */
export const FRONT: Record<Role, string> = {
  porter: "/goods-in",
  chef: "/menus",
  manager: "/deadlines",
  approver: "/menus",
};
