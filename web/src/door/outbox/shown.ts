import type { BodyOf } from "../command";
import { lastTold, type Report } from "../reports";
import type {
  AskedForRow,
  CheckRow,
  ColdPlaceRow,
  CoolingRow,
  CountsRow,
  ExpectedLine,
  ExpectedRow,
  HouseRow,
  ItemRow,
  PickRow,
  PreparationRow,
  PullRow,
  ReportName,
  RowOf,
  ServingRow,
  StockRow,
} from "../rows";
import type { Entry } from "../store";
import { less, plus, sign } from "../sums";
import { askedShown } from "./asked";
import type { Named } from "./batch_parts";
import { checksShown, coolingsShown, placesShown } from "./cold";
import { countsShown } from "./counted";
import { labelsShown } from "./labels_shown";
import { morningShown, pickShown, preparationsShown, pullShown, servingShown } from "./lists";
import { standingShown } from "./standing";

/** A report with these records in it; `all` is everything that this device holds. */
export function laidOver<Row>(
  name: ReportName,
  told: Report<Row>,
  fresh: Entry[],
  all: Entry[],
): Report<Row> {
  const lay = LAID[name];
  return lay ? { ...told, rows: lay(told.rows, fresh, all, told.zone) as Row[] } : told;
}

/** By report, how records are laid over its rows; a report that is not here is shown as it was told. */
const LAID: Partial<
  Record<ReportName, (rows: unknown[], fresh: Entry[], all: Entry[], zone: string) => unknown[]>
> = {
  "asked-for": (rows, fresh) => askedShown(rows as AskedForRow[], fresh),
  checks: (rows, fresh) => checksShown(rows as CheckRow[], fresh),
  cooling: (rows, fresh) => coolingsShown(rows as CoolingRow[], fresh),
  counts: (rows, fresh) => countsShown(rows as CountsRow[], fresh),
  expected: (rows, fresh, all) => expectedShown(rows as ExpectedRow[], fresh, all),
  temperatures: (rows, fresh) => placesShown(rows as ColdPlaceRow[], fresh),
  morning: (rows, fresh) => morningShown(rows as RowOf<"morning">[], fresh),
  pick: (rows, fresh) => pickShown(rows as PickRow[], fresh),
  preparations: (rows, fresh) => preparationsShown(rows as PreparationRow[], fresh),
  serving: (rows, fresh) => servingShown(rows as ServingRow[], fresh),
  pull: (rows, fresh) => pullShown(rows as PullRow[], fresh),
  stock: (rows, fresh, all, zone) =>
    labelsShown(standingShown(rows as StockRow[], fresh, all, named(zone)), fresh, all),
};

/** Areas, items and lives as the house last told them. */
function named(zone: string): Named {
  const house = lastTold<HouseRow>("house")?.rows[0];
  const areas = house?.areas ?? [];
  const items = lastTold<ItemRow>("items")?.rows ?? [];
  return {
    area: (of) => {
      const area = areas.find((each) => each.id === of || each.area === of);
      return { name: area?.area ?? of, isFrozen: area?.kind === "frozen" };
    },
    item: (of) => {
      const item = items.find((each) => each.id === of || each.item === of);
      return item ? { id: item.id, name: item.item, unit: item.unit, lives: item.lives } : null;
    },
    zone,
    lives: house?.lives,
  };
}

/** What is expected, once these records are in it; `all` is everything that this device holds. */
export function expectedShown(rows: ExpectedRow[], fresh: Entry[], all: Entry[]): ExpectedRow[] {
  const taken = new Set<string>();
  let shown = rows.map(asAwaited);
  for (const { command } of fresh) {
    if (command.kind !== "correct") continue;
    const of = all.find(({ id }) => id === command.body.command)?.command;
    if (of?.kind !== "receive") continue;
    taken.add(of.id);
    // what the house did not have yet never was in its rows
    if (!fresh.some(({ id }) => id === of.id)) shown = came(shown, of.body, -1);
  }
  for (const { id, command } of fresh) {
    if (taken.has(id)) continue;
    if (command.kind === "receive") shown = came(shown, command.body, 1);
    if (command.kind === "close_delivery") {
      shown = shown.filter(({ row }) => row.order !== command.body.order);
    }
  }
  return shown
    .filter(({ row, awaited }) => rows.includes(row) || awaited.size > 0)
    .map(({ row }) => row);
}

/** An order, and the packs of it that are awaited still: of what nobody counts no amount says so. */
interface Awaited {
  row: ExpectedRow;
  awaited: ReadonlySet<string>;
}

function asAwaited(row: ExpectedRow): Awaited {
  const open = row.lines.filter((line) => !line.counted || sign(line.outstanding.value) > 0);
  return { row, awaited: new Set(open.map(({ pack_id }) => pack_id)) };
}

/** The orders after a line came, or where `by` is -1 after it was taken back. */
function came(shown: Awaited[], body: BodyOf<"receive">, by: 1 | -1): Awaited[] {
  if (body.verdict === "refuse") return shown;
  return shown.map((order) => {
    const line = order.row.order === body.order ? lineOf(order, body) : undefined;
    if (!line) return order;
    const after = body.instead ? replaced(line, body, by) : counted(line, body, by);
    const lines = order.row.lines.map((each) => (each === line ? after : each));
    const awaited = new Set(order.awaited);
    if (isDone(after, body, by)) awaited.delete(line.pack_id);
    else awaited.add(line.pack_id);
    return { row: { ...order.row, lines }, awaited };
  });
}

/** The line that was answered: of several packs of one item the one that is named, else the first. */
function lineOf({ row, awaited }: Awaited, body: BodyOf<"receive">): ExpectedLine | undefined {
  const { item, pack } = body.instead ?? body;
  const of = row.lines.filter((line) => line.item_id === item);
  const named = of.find(({ pack_id }) => pack_id === pack);
  return named ?? of.find(({ pack_id }) => awaited.has(pack_id)) ?? of[0];
}

function isDone(line: ExpectedLine, body: BodyOf<"receive">, by: 1 | -1): boolean {
  if (line.counted) return sign(line.outstanding.value) <= 0;
  return by > 0 && (!body.instead || Boolean(body.instead.replaces));
}

/** Another thing came in the line's place: it is awaited no more where that was said. */
function replaced(line: ExpectedLine, body: BodyOf<"receive">, by: 1 | -1): ExpectedLine {
  if (!body.instead?.replaces) return line;
  return awaiting(line, by > 0 ? "0" : left(line.quantity.value, line.received.value));
}

function counted(line: ExpectedLine, { quantity }: BodyOf<"receive">, by: 1 | -1): ExpectedLine {
  if (typeof quantity === "string" || quantity.unit !== line.received.unit) return line;
  const { value } = quantity;
  const received = by > 0 ? plus(line.received.value, value) : less(line.received.value, value);
  const outstanding = left(line.quantity.value, received);
  return awaiting({ ...line, received: { ...line.received, value: received } }, outstanding);
}

function awaiting(line: ExpectedLine, value: string): ExpectedLine {
  return { ...line, outstanding: { ...line.outstanding, value } };
}

function left(of: string, received: string): string {
  const value = less(of, received);
  return sign(value) > 0 ? value : "0";
}
