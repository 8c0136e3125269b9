/** The rows of the house's reports, as they come over the wire. */
import type { Money, Quantity } from "./quantities";

export type State = "proposed" | "confirmed" | "served" | "taken_off";
export type MarkKind = "use_by" | "best_before" | "none";

export interface HouseRow {
  name: string;
  zone: string;
  currency: string;
  unit_system: string;
  decimal_mark: string;
  notice: string;
  people: number;
  areas: { id: string; area: string; kind: string; min_c: string | null; max_c: string | null }[];
  tables: { id: string; table: string; rank: number; usual_covers: number | null }[];
  suppliers: { id: string; supplier: string; version: number }[];
  has: {
    items: number;
    batches: number;
    recipes: number;
    services: number;
    suppliers: number;
    people: number;
  };
}

export interface ServiceMark {
  what: "service";
  at: string;
  day: string;
  service: string;
  meal: string;
  table: string;
  covers: number;
  state: State;
  dishes: string[];
  short: number;
}
export interface DeliveryMark {
  what: "delivery";
  at: string;
  day: string;
  order: string;
  supplier: string;
  lines: number | { item: string; pack: string; packs: number }[];
}
export interface CutOffMark {
  what: "cut_off";
  at: string;
  day: string;
  supplier: string;
  delivery: string;
  items: number;
  alert: Alert;
}
export interface ChooseByMark {
  what: "choose_by";
  at: string;
  day: string;
  service: string;
  dishes: string[];
}
export interface DiesMark {
  what: "dies";
  at: string;
  day: string;
  batch: string;
  label: string;
  item: string;
  area: string;
  on_hand: Quantity;
  promised: Quantity;
  available: Quantity;
  mark: MarkKind;
}
export interface PullMark {
  what: "pull";
  at: string;
  day: string;
  batch: string;
  label: string;
  item: string;
  area: string;
  quantity: Quantity;
  service: string;
}
export interface MakeMark {
  what: "make";
  at: string;
  day: string;
  item: string;
  quantity: Quantity;
  dish: string;
  service: string;
}
export interface LeftMark {
  what: "left";
  kind: "delivery" | "service" | "question" | "cut_off";
  key: string;
  since: string;
  text: string;
}
export type DayMark =
  | ServiceMark
  | DeliveryMark
  | CutOffMark
  | ChooseByMark
  | DiesMark
  | PullMark
  | MakeMark;

export interface ExpectedLine {
  item: string;
  item_id: string;
  pack: string;
  pack_id: string;
  packs: number;
  quantity: Quantity;
  received: Quantity;
  outstanding: Quantity;
  area: string | null;
  area_id: string | null;
  gtin: string | null;
  counted: boolean;
  high_risk: boolean;
  life_on_arrival_days: number | null;
  for: string[];
}
export interface ExpectedRow {
  order: string;
  supplier: string;
  supplier_id: string;
  at: string;
  version: number;
  lines: ExpectedLine[];
}

export interface ItemRow {
  id: string;
  item: string;
  unit: string;
  group: string | null;
  area: string | null;
  area_id: string | null;
  counted: boolean;
  level: string | null;
  high_risk: boolean;
  whole: boolean;
  gtin: string | null;
  contains: string[] | null;
  may_contain: string[] | null;
  packs: { id: string; pack: string; supplier: string; quantity: Quantity; gtin: string | null }[];
}

export interface CodeRow {
  read: {
    gtin: string | null;
    lot: string | null;
    date_mark: { kind: MarkKind; date: string | null } | null;
    quantity: Quantity | null;
    count: number | null;
    serial: string | null;
    content_gtin: string | null;
    warnings: string[];
  };
  matches: {
    kind: "pack" | "item" | "batch";
    id: string;
    item: string;
    item_id: string;
    pack: string | null;
    pack_id: string | null;
    supplier: string | null;
    quantity: Quantity | null;
    label: string | null;
  }[];
}

/** Who cannot eat a dish that is on a menu, through what, and their own safe dish. */
export interface Conflict {
  person: string;
  cannot_eat: string;
  certainty: "contains" | "may_contain";
  through: string[];
  safe: { dish: string; name: string; variant: string | null } | null;
}
export interface MenuDish {
  dish: string;
  name: string;
  variant: string | null;
  portions: number | null;
  chosen: boolean;
  approved: boolean;
  choose_by: string | null;
  short: string[];
  flags: string[];
  conflicts: Conflict[];
}
export interface MenuRow {
  service: string;
  date: string;
  meal: string;
  table: string;
  at: string;
  covers: number;
  state: State;
  version: number;
  choose_by: string | null;
  notice_by: string;
  short: number;
  courses: { course: string; dishes: MenuDish[] }[];
}

export interface DishRow {
  id: string;
  dish: string;
  version: number;
  variants: string[];
  approved: boolean;
  season_from: string | null;
  season_to: string | null;
  lead: string;
  yields: string;
  last_served: { table: string; date: string }[];
  lines: { item: string; item_id: string; amount: string }[];
  method: string;
  contains: string[];
  may_contain: string[];
  unknown: string[];
}

export interface PersonRow {
  id: string;
  name: string;
  role: string;
  email: string | null;
  active: boolean;
  has_password: boolean;
  sessions: number;
}

export interface StockRow {
  item: string;
  batch: string;
  label: string;
  area: string;
  areas: Record<string, Quantity>;
  state: string;
  date_mark: { kind: MarkKind; date: string | null };
  usable_until: string | null;
  good_until: string | null;
  on_hand: Quantity;
  promised: Quantity;
  on_hold: Quantity;
  emergency: Quantity;
  available: Quantity;
  usable: boolean;
  flagged: boolean;
  lot: string | null;
  value?: Money;
}

export interface UseFirstRow {
  item: string;
  batch: string;
  label: string;
  area: string;
  available: Quantity;
  usable_until: string | null;
  good_until: string | null;
  date_mark: MarkKind;
  past: string | null;
  could_use: { dish: string; service?: string }[];
}

export type Alert = "open" | "last_call" | "missed" | "none";

export interface NeedLine {
  need: {
    id: string;
    service: string;
    dish: string;
    item: string;
    quantity: number;
    wanted_by: string;
    until: string;
  };
  given: [string, number][];
  lacking: number;
  covered: number;
  counts: boolean;
}
export interface Derivation {
  rules: string[];
  lines: NeedLine[];
  par: {
    at: string;
    floor: number;
    order_up_to: number;
    free: [string, number][];
    over: number;
    lowest: number;
    quantity: number;
  } | null;
  daily: unknown[];
  used_up: number;
  menu_packs: number;
  par_packs: number;
  daily_packs: number;
  pack_quantity: number;
  price: number;
  at: string;
  cutoff: string;
  send: string;
  margin: string;
  usable_until: string | null;
  opened: boolean;
}
export interface Purchase {
  item: string;
  supplier: string;
  pack: string;
  packs: number;
  order_by: string;
  delivery: string;
  at_risk: boolean;
}
export type WayOut = { service: string; dish: string } & (
  | { kind: "another_supplier"; buy: Purchase }
  | {
      kind: "substitute";
      item: string;
      quantity: Quantity;
      when: string | null;
      buy: Purchase | null;
    }
  | { kind: "variant"; variant: string; buy: Purchase[] }
  | { kind: "another_dish"; instead: string }
  | { kind: "fewer_portions"; portions: number }
  | { kind: "shop_run"; item: string; quantity: Quantity }
);
export interface PlanRow {
  item: string;
  net: Quantity;
  wanted_by: string;
  supplier: string | null;
  pack: string | null;
  packs: number;
  order_by: string | null;
  delivery: string | null;
  alert: Alert;
  because: string[];
  ways_out: WayOut[];
  cost: Money | null;
  at_risk: boolean;
  derivation: Derivation | null;
}

export interface CoverageRow {
  service: string;
  state: State;
  course: string;
  dish: string;
  variant: string | null;
  item: string;
  for: string | null;
  need: Quantity;
  taken_out: Quantity;
  wanted_by: string;
  from: {
    batch?: string;
    delivery?: string;
    harvest?: string;
    making?: string;
    label?: string;
    ready?: string;
    thaw_from?: string;
    quantity: Quantity;
  }[];
  short: Quantity;
  mend_until: string | null;
  choose_by: string | null;
  flags: string[];
  derivation: NeedDerivation | null;
}
/** The lines of a recipe that a need is the sum of; numbers exact, such as `6` or `3/4`. */
export interface NeedDerivation {
  portions: string;
  yields: string;
  lines: { amount: Quantity; trimming_yield: string; scales: boolean }[];
  whole: boolean;
}

export interface QuestionRow {
  question: string;
  kind: string;
  owner: string;
  about: string;
  recorded: string;
  against: string;
  answers: string[];
  opened_at: string;
  version: number;
}

/** One end of a link of a trace: a batch, an account of the ledger, or a place where it still stands. */
export interface TraceEnd {
  batch?: string;
  label?: string;
  account?: string;
  supplier?: string | null;
  service?: string | null;
  area?: string;
  on_hold?: boolean;
  link?: "scanned" | "assumed";
  quantity: Quantity;
}
export interface TraceRow {
  direction: "back" | "forward" | "beside";
  item: string;
  batch: string;
  label: string;
  lot: string | null;
  link: "scanned" | "assumed";
  from?: TraceEnd[];
  to?: TraceEnd[];
}
