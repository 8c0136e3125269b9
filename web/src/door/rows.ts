/** The rows of the house's reports, as they come over the wire: names for what the house describes. */
import type { paths } from "./api";
import type { Wire } from "./wire";

/** What every report answers, by its name. */
export type Reports = {
  [Path in keyof paths as Path extends `/api/reports/${infer Name}`
    ? Name
    : never]: paths[Path] extends {
    get: { responses: { 200: { content: { "application/json": infer Told } } } };
  }
    ? Told
    : never;
};
export type ReportName = keyof Reports;
export type RowOf<Name extends ReportName> = Reports[Name]["rows"][number];

/** The reports whose rows are of this shape: a row under another report's name does not compile. */
export type Tells<Row> = {
  [Name in ReportName]: RowOf<Name> extends Row ? Name : never;
}[ReportName];

export type State = Wire["ServiceState"];
export type MarkKind = Wire["DateKind"];
export type Alert = Wire["Alert"];

/** What presses: one supplier's delivery, or an item that nobody brings. */
export type AlertRow = RowOf<"alerts">;
export type HouseRow = RowOf<"house">;
export type PersonRow = RowOf<"people">;
export type DeviceOf = RowOf<"devices">;
export type AwaitedRow = RowOf<"awaited">;

export type ServiceMark = Wire["ServiceMark"];
/** A delivery: line by line in the morning, a number of lines among the days. */
export type DeliveryMark = Wire["DeliveryMark"] | Wire["DeliveryTodayMark"];
export type CutOffMark = Wire["CutOffMark"];
export type ChooseByMark = Wire["ChooseByMark"];
export type DiesMark = Wire["DiesMark"];
export type PullMark = Wire["PullMark"];
export type MakeMark = Wire["MakeMark"];
export type LeftMark = Wire["LeftMark"];
/** What stands on a day, as either report tells it. */
export type DayMark = RowOf<"days"> | Exclude<RowOf<"morning">, LeftMark>;

export type ExpectedRow = RowOf<"expected">;
export type ExpectedLine = Wire["ExpectedLine"];
export type ItemRow = RowOf<"items">;
export type CodeRow = RowOf<"code">;

export type PresenceRow = RowOf<"presence">;
export type StandingOrderRow = RowOf<"standing-orders">;
export type StayChangeRow = RowOf<"stay-change">;
export type MenuRow = RowOf<"menus">;
export type MenuDish = Wire["MenuDish"];
/** What the household answered to a menu. */
export type MenuAnswer = Wire["MenuAnswer"];
export type SheetRow = RowOf<"sheets">;
/** Who cannot eat a dish that is on a menu, through what, and their own safe dish. */
export type Conflict = Wire["MenuConflict"];
export type DishRow = RowOf<"dishes">;
/** What a dish, or a variant of it, would come to at a meal that is being thought of. */
export type DishForRow = RowOf<"dishes-for">;

export type RecipeRow = RowOf<"recipes">;
export type RecipeLine = RecipeRow["lines"][number];

export type LabelRow = RowOf<"labels">;
export type PreparationRow = RowOf<"preparations">;
export type ServingRow = RowOf<"serving">;
export type ServingDish = ServingRow["dishes"][number];
export type ServingBatch = ServingRow["batches"][number];
export type ServedRow = RowOf<"served">;
export type InsteadRow = RowOf<"instead">;
export type PullRow = RowOf<"pull">;
export type PickRow = RowOf<"pick">;

export type StockRow = RowOf<"stock">;
export type WasteRow = RowOf<"waste">;
/** What was lost of which no batch is known. */
export type WasteWithoutBatchRow = RowOf<"waste-without-batch">;
export type UseFirstRow = RowOf<"use-first">;
export type TraceRow = RowOf<"trace">;
export type TraceEnd = Wire["TraceEnd"];

export type PlanRow = RowOf<"plan">;
export type Derivation = Wire["Derivation"];
export type NeedLine = Wire["DerivedLine"];
export type Purchase = Wire["Purchase"];
export type WayOut = PlanRow["ways_out"][number];
export type CoverageRow = RowOf<"coverage">;
/** One effect of a change that is not made yet. */
export type LateChangeRow = RowOf<"late-change">;
/** The lines of a recipe that a need is the sum of; numbers exact, such as `6` or `3/4`. */
export type NeedDerivation = Wire["NeedDerivation"];

export type QuestionRow = RowOf<"questions">;
/** A chilled or frozen place with its readings and rounds. */
export type ColdPlaceRow = RowOf<"temperatures">;
export type PlaceReading = Wire["PlaceReading"];
export type FailedPlaceRow = RowOf<"failed-places">;
export type CoolingRow = RowOf<"cooling">;
export type CheckRow = RowOf<"checks">;

/** An order as it stands, with how it was sent and what its supplier said. */
export type OrderRow = RowOf<"orders">;
export type PriceRow = RowOf<"prices">;
/** A line that is to be ordered, on one delivery. */
export type ReorderRow = RowOf<"reorder">;
export type BudgetRow = RowOf<"budget">;
export type CreditRow = RowOf<"credits">;
/** An invoice, with what it should come to and each thing in which it differs. */
export type InvoiceRow = RowOf<"invoices">;
export type InvoiceDifference = Wire["DifferenceRow"];
export type NotBilledRow = Wire["NotBilledRow"];
export type OwedRow = Wire["OwedRow"];
export type SupplierRow = RowOf<"suppliers">;
export type SupplierRecordRow = RowOf<"supplier-record">;
export type NoticeRow = RowOf<"notice">;
export type LongerNoticeRow = RowOf<"longer-notice">;
export type CountsRow = RowOf<"counts">;
export type CountLine = CountsRow["lines"][number];
export type CountDifferenceRow = RowOf<"count-differences">;
export type ShopRunRow = RowOf<"shop-runs">;
export type AskedForRow = RowOf<"asked-for">;
