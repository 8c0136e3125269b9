import type { ComponentType } from "preact";
import type { Kind } from "../door/command";
import type { ReportName } from "../door/rows";
import type { Role } from "../door/session";

/** What the work of a day is made of, what can be known of the house, its keeping, and this device. */
export type Part = "today" | "house" | "keeping" | "device";

/** One place of the house: its path, its name on a door, what may be read to enter it, its screen. */
export interface PlaceOf {
  to: string;
  name: string;
  /** Under which heading *More* has it; there the places of a part stand in the order of `PLACES`. */
  part: Part;
  reads: ReportName;
  /** What must be allowed to be given, where reading is not enough. */
  gives?: Kind;
  /** Whose door it is; for the others who may enter it stands behind *More*. */
  door: readonly Role[];
  /** Whether whoever is not signed in may enter it, too. */
  forStrangers?: true;
  /** Where *More* leads to it; left out: everywhere. */
  shownOn?: "device" | "elsewhere";
  /** The screen, brought when it is first entered: nobody waits for another's rooms. */
  screen: () => Promise<ComponentType>;
}

const NOBODY: readonly Role[] = [];
const EVERYBODY: readonly Role[] = ["porter", "chef", "manager", "approver"];

/** Every place, in the order of the doors. */
export const PLACES: readonly PlaceOf[] = [
  {
    to: "/deadlines",
    name: "Deadlines",
    part: "house",
    reads: "plan",
    door: EVERYBODY,
    screen: () => import("./manager/deadlines").then((room) => room.Deadlines),
  },
  {
    to: "/alerts",
    name: "Alerts",
    part: "today",
    reads: "alerts",
    door: NOBODY,
    screen: () => import("./manager/alerts/alerts").then((room) => room.Alerts),
  },
  {
    to: "/menus",
    name: "Menus",
    part: "house",
    reads: "menus",
    door: EVERYBODY,
    screen: () => import("./chef/menus").then((room) => room.Menus),
  },
  {
    to: "/who-is-here",
    name: "Who is here",
    part: "house",
    reads: "presence",
    door: NOBODY,
    screen: () => import("./chef/presence/who_is_here").then((room) => room.WhoIsHere),
  },
  {
    to: "/sheets",
    name: "Shown to the household",
    part: "house",
    reads: "sheets",
    door: NOBODY,
    screen: () => import("./chef/sheets/sheets").then((room) => room.Sheets),
  },
  {
    to: "/goods-in",
    name: "Goods in",
    part: "today",
    reads: "expected",
    door: EVERYBODY,
    screen: () => import("./porter/goods_in").then((room) => room.GoodsIn),
  },
  {
    to: "/shelf",
    name: "Shelf",
    part: "today",
    reads: "stock",
    door: ["porter"],
    screen: () => import("./porter/shelf").then((room) => room.Shelf),
  },
  {
    to: "/more",
    name: "More",
    part: "house",
    reads: "house",
    door: EVERYBODY,
    screen: () => import("./shared/more").then((room) => room.More),
  },
  {
    to: "/morning",
    name: "Morning sheet",
    part: "today",
    reads: "morning",
    door: NOBODY,
    screen: () => import("./shared/morning").then((room) => room.Morning),
  },
  {
    to: "/pull",
    name: "Take out to thaw",
    part: "today",
    reads: "pull",
    door: NOBODY,
    screen: () => import("./porter/lists/pull").then((room) => room.Pull),
  },
  {
    to: "/pick",
    name: "Bring to the kitchen",
    part: "today",
    reads: "pick",
    door: NOBODY,
    screen: () => import("./porter/lists/pick").then((room) => room.Pick),
  },
  {
    to: "/serving",
    name: "Serving today",
    part: "today",
    reads: "serving",
    gives: "serve",
    door: NOBODY,
    screen: () => import("./chef/kitchen/serving").then((room) => room.Serving),
  },
  {
    to: "/preparations",
    name: "Preparation list",
    part: "today",
    reads: "preparations",
    door: NOBODY,
    screen: () => import("./chef/kitchen/preparations").then((room) => room.Preparations),
  },
  {
    to: "/wrong-place",
    name: "In the wrong place",
    part: "today",
    reads: "stock",
    gives: "move",
    door: NOBODY,
    screen: () => import("./porter/wrong_place").then((room) => room.WrongPlace),
  },
  {
    to: "/labels",
    name: "Labels",
    part: "today",
    reads: "labels",
    door: NOBODY,
    screen: () => import("./porter/labels/labels").then((room) => room.Labels),
  },
  {
    to: "/counts",
    name: "Counts",
    part: "today",
    reads: "counts",
    door: NOBODY,
    screen: () => import("./porter/counts/counts").then((room) => room.Counts),
  },
  {
    to: "/shop",
    name: "Shop run",
    part: "today",
    reads: "items",
    gives: "shop_run",
    door: NOBODY,
    screen: () => import("./porter/shop/shop_run").then((room) => room.ShopRun),
  },
  {
    to: "/use",
    name: "Used off the menu",
    part: "today",
    reads: "stock",
    gives: "use",
    door: NOBODY,
    screen: () => import("./porter/shop/off_menu").then((room) => room.OffMenu),
  },
  {
    to: "/out-of",
    name: "We are out of",
    part: "today",
    reads: "asked-for",
    gives: "run_out",
    door: NOBODY,
    screen: () => import("./porter/shop/out_of").then((room) => room.OutOf),
  },
  {
    to: "/waste",
    name: "Waste",
    part: "today",
    reads: "stock",
    gives: "waste",
    door: NOBODY,
    screen: () => import("./porter/waste/waste").then((room) => room.Waste),
  },
  {
    to: "/round",
    name: "Temperatures",
    reads: "temperatures",
    gives: "take_temperature",
    part: "today",
    door: NOBODY,
    screen: () => import("./porter/round").then((room) => room.Round),
  },
  {
    to: "/failed-places",
    name: "Cold places that failed",
    reads: "failed-places",
    gives: "release",
    part: "today",
    door: NOBODY,
    screen: () => import("./chef/failed_places").then((room) => room.FailedPlaces),
  },
  {
    to: "/cold-places",
    name: "Cold places",
    reads: "temperatures",
    gives: "set_policy",
    part: "house",
    door: NOBODY,
    screen: () => import("./manager/cold_places").then((room) => room.ColdPlaces),
  },
  {
    to: "/questions",
    name: "Questions",
    part: "today",
    reads: "questions",
    door: NOBODY,
    screen: () => import("./shared/questions").then((room) => room.Questions),
  },
  {
    to: "/records",
    name: "Records of this phone",
    part: "today",
    reads: "house",
    shownOn: "device",
    door: NOBODY,
    screen: () => import("./shared/records").then((room) => room.Records),
  },
  {
    to: "/days",
    name: "The next days",
    part: "house",
    reads: "days",
    door: NOBODY,
    screen: () => import("./shared/days").then((room) => room.Days),
  },
  {
    to: "/use-first",
    name: "What must be used first",
    part: "house",
    reads: "use-first",
    door: NOBODY,
    screen: () => import("./chef/use_first").then((room) => room.UseFirst),
  },
  {
    to: "/recipes",
    name: "Recipes",
    part: "house",
    reads: "recipes",
    door: NOBODY,
    screen: () => import("./chef/recipes/recipes").then((room) => room.Recipes),
  },
  {
    to: "/served",
    name: "What was served",
    part: "house",
    reads: "served",
    door: NOBODY,
    screen: () => import("./chef/kitchen/served").then((room) => room.Served),
  },
  {
    to: "/waste-report",
    name: "What was lost",
    part: "house",
    reads: "waste",
    door: NOBODY,
    screen: () => import("./manager/waste/waste_report").then((room) => room.WasteReport),
  },
  {
    to: "/petty-cash",
    name: "Petty cash",
    part: "house",
    reads: "shop-runs",
    door: NOBODY,
    screen: () => import("./manager/shop_runs").then((room) => room.ShopRuns),
  },
  {
    to: "/order-desk",
    name: "Order desk",
    part: "today",
    reads: "orders",
    gives: "place_order",
    door: NOBODY,
    screen: () => import("./manager/desk/desk").then((room) => room.OrderDesk),
  },
  {
    to: "/reorder",
    name: "Reorder report",
    part: "house",
    reads: "reorder",
    door: NOBODY,
    screen: () => import("./manager/desk/reorder").then((room) => room.Reorder),
  },
  {
    to: "/prices",
    name: "Prices",
    part: "house",
    reads: "prices",
    door: NOBODY,
    screen: () => import("./manager/desk/prices").then((room) => room.Prices),
  },
  {
    to: "/suppliers",
    name: "Suppliers",
    part: "house",
    reads: "suppliers",
    door: NOBODY,
    screen: () => import("./manager/suppliers").then((room) => room.Suppliers),
  },
  {
    to: "/notice",
    name: "Bought in or kept in",
    part: "house",
    reads: "longer-notice",
    door: NOBODY,
    screen: () => import("./manager/notice").then((room) => room.Notice),
  },
  {
    to: "/credits",
    name: "Credits expected",
    part: "house",
    reads: "credits",
    door: NOBODY,
    screen: () => import("./manager/credits").then((room) => room.Credits),
  },
  {
    to: "/check",
    name: "What this device can do",
    part: "device",
    reads: "house",
    door: NOBODY,
    forStrangers: true,
    screen: () => import("./shared/device_check").then((room) => room.DeviceCheck),
  },
  {
    to: "/hand-over",
    name: "Somebody else",
    part: "device",
    reads: "house",
    door: NOBODY,
    shownOn: "device",
    screen: () => import("./entry/hand_over").then((room) => room.HandOver),
  },
  {
    to: "/enrol",
    name: "A code for this phone",
    part: "device",
    reads: "house",
    door: NOBODY,
    forStrangers: true,
    shownOn: "elsewhere",
    screen: () => import("./entry/enrol").then((room) => room.Enrol),
  },
  {
    to: "/people",
    name: "People",
    part: "keeping",
    reads: "people",
    door: NOBODY,
    screen: () => import("./manager/people").then((room) => room.People),
  },
  {
    to: "/book",
    name: "Bring in a house book",
    part: "keeping",
    reads: "people",
    gives: "import_book",
    door: NOBODY,
    screen: () => import("./manager/book").then((room) => room.Book),
  },
  {
    to: "/first-steps",
    name: "First steps",
    part: "keeping",
    reads: "people",
    gives: "import_book",
    door: NOBODY,
    screen: () => import("./manager/first_steps").then((room) => room.FirstSteps),
  },
];

/** Where each role opens onto. */
export const FRONT: Record<Role, string> = {
  porter: "/goods-in",
  chef: "/menus",
  manager: "/deadlines",
  approver: "/menus",
};
