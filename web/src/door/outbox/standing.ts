import { isNamed } from "../codes/is_on";
import type { BodyOf, Command, CommandOf } from "../command";
import type { Entry } from "../store";
import { less, plus, sign } from "../sums";
import {
  areaOf,
  change,
  fullest,
  grown,
  inUnit,
  leftIn,
  lessened,
  type Named,
  partOf,
  replaced,
  type StandingRow,
  type State,
  smaller,
  split,
} from "./batch_parts";
import { came, received } from "./coming";
import { type Treating, treated as treatedSo } from "./dating";
import { counted } from "./found";
import { notTakenBack, takenBack } from "./taken_back";

const BECOMES: Record<Treating, (parent: State) => State> = {
  open: (parent) => (parent === "frozen" ? parent : "opened"),
  decant: (parent) => (parent === "sealed" ? "opened" : parent),
  freeze: () => "frozen",
  thaw: () => "thawed",
  vacuum_pack: (parent) => (parent === "frozen" ? parent : "vacuum_packed"),
};

/**
 * What stands in the house, once these records are in it: how much of each batch in which area, and the batches
 * that were made here. What was promised is planned anew by the house alone; until then what is taken comes from
 * what is available first. A record in another unit than the batch's is left to the house.
 */
export function standingShown(
  rows: StandingRow[],
  fresh: Entry[],
  all: Entry[],
  named: Named,
): StandingRow[] {
  const back = takenBack(fresh);
  const known = new Set(fresh.map(({ id }) => id));
  let shown = rows;
  for (const id of back) {
    // what the house did not have yet never was in its rows
    const of = known.has(id) ? null : all.find((entry) => entry.id === id)?.command;
    if (of) shown = reversed(shown, of, named);
  }
  for (const { command } of notTakenBack(fresh)) shown = after(shown, command, named);
  return shown.filter((row) => sign(row.on_hand.value) !== 0 || rows.includes(row));
}

function after(rows: StandingRow[], command: Command, named: Named): StandingRow[] {
  switch (command.kind) {
    case "move":
      return moved(rows, command, named);
    case "take_out":
      return takenOut(rows, command, named);
    case "waste":
      return gone(
        rows,
        command.body.batch,
        command.body.quantity,
        areaOf(command.body.area, named),
      );
    case "use":
      return used(rows, command.body, named);
    case "hold":
      return decided(rows, command.body.batch, true);
    case "release":
      return decided(rows, command.body.batch, false);
    case "send_out":
      return gone(rows, command.body.batch, command.body.quantity, null);
    case "shop_run":
      return (
        command.body.lines?.reduce((all, line) => came(all, line, command.at, named), rows) ?? rows
      );
    case "open":
    case "freeze":
    case "thaw":
    case "decant":
    case "vacuum_pack":
      return treated(rows, command.kind, command.body, command.at, named);
    case "receive":
      return received(rows, command.body, command.at, named);
    case "harvest":
      return came(rows, command.body, command.at, named);
    case "count":
      return counted(rows, command.body, named);
    default:
      return rows;
  }
}

function gone(
  rows: StandingRow[],
  batch: string,
  written: string | { value: string; unit: string },
  from: string | null,
): StandingRow[] {
  const part = partOf(rows, batch, written);
  return part ? replaced(rows, part.row, lessened(part, from)) : rows;
}

/** Of an item that was used whatever the batch, what dies first is gone (AL1). */
function used(rows: StandingRow[], body: BodyOf<"use">, named: Named): StandingRow[] {
  if (body.batch) return gone(rows, body.batch, body.quantity, null);
  const item = body.item ? named.item(body.item) : null;
  let rest = item && inUnit(body.quantity, item.unit);
  if (!item || !rest) return rows;
  let shown = rows;
  const inOrder = rows
    .filter(({ item_id }) => item_id === item.id)
    .sort((one, other) => compared(dies(one), dies(other)));
  for (const row of inOrder) {
    const value = smaller(rest, row.available.value);
    if (sign(value) <= 0) continue;
    shown = replaced(shown, row, lessened({ row, value }, null));
    rest = less(rest, value);
  }
  return shown;
}

/** What is never used after a moment before what is only flagged; without either, last. */
function dies({ usable_until, good_until }: StandingRow): string {
  return `${usable_until ?? "~"} ${good_until ?? "~"}`;
}

function compared(one: string, other: string): number {
  return Number(one > other) - Number(one < other);
}

/** All of a batch is on hold, whatever it was promised to; or what was on hold of it may be used after all. */
function decided(rows: StandingRow[], batch: string, isHeld: boolean): StandingRow[] {
  const row = rows.find((each) => isNamed(each, batch));
  if (!row) return rows;
  const nothing = change(row.on_hand, "0");
  const by = isHeld
    ? { on_hold: row.on_hand, available: nothing, promised: nothing, emergency: nothing }
    : {
        on_hold: nothing,
        available: change(row.available, plus(row.available.value, row.on_hold.value)),
      };
  return replaced(rows, row, { ...row, ...by });
}

function moved(
  rows: StandingRow[],
  { id, at, body }: Pick<CommandOf<"move">, "id" | "at" | "body">,
  named: Named,
): StandingRow[] {
  const part = partOf(rows, body.batch, body.quantity);
  if (!part) return rows;
  const { name, isFrozen } = named.area(body.area);
  if ((part.row.state === "frozen") !== isFrozen) {
    const dated = treatedSo(isFrozen ? "freeze" : "thaw", part, at, named);
    const state = isFrozen ? "frozen" : "thawed";
    return split(rows, part, { batch: id, label: null, state, dated }, name);
  }
  const { row, value } = part;
  const areas = leftIn(row.areas, value, areaOf(body.from_area, named));
  const there = areas[name] ?? change(row.on_hand, "0");
  areas[name] = change(there, plus(there.value, value));
  return replaced(rows, row, { ...row, areas, area: fullest(areas) });
}

function takenOut(
  rows: StandingRow[],
  { id, at, body }: CommandOf<"take_out">,
  named: Named,
): StandingRow[] {
  const part = partOf(rows, body.batch, body.quantity);
  if (!part) return rows;
  if (part.row.state === "frozen") {
    const dated = treatedSo("thaw", part, at, named);
    return split(rows, part, { batch: id, label: null, state: "thawed", dated }, null);
  }
  const { row, value } = part;
  const from = areaOf(body.area, named);
  if (body.service) {
    // what was promised is what is taken out for a meal first
    const promised = smaller(value, row.promised.value);
    const left = lessened(part, from);
    const available = less(less(row.on_hand.value, value), less(row.promised.value, promised));
    const held = plus(row.on_hold.value, row.emergency.value);
    return replaced(rows, row, {
      ...left,
      promised: change(row.promised, less(row.promised.value, promised)),
      available: change(row.available, less(available, held)),
    });
  }
  const areas = leftIn(row.areas, value, from);
  return replaced(rows, row, { ...row, areas, area: fullest(areas) });
}

function treated(
  rows: StandingRow[],
  kind: Treating,
  body: BodyOf<Treating>,
  at: string,
  named: Named,
): StandingRow[] {
  const part = partOf(rows, body.batch, body.quantity);
  if (!part) return rows;
  const dated = treatedSo(kind, part, at, named);
  const state = BECOMES[kind](part.row.state);
  const child = { batch: body.child, label: body.label, state, dated };
  return split(rows, part, child, areaOf(body.area, named) ?? part.row.area);
}

/** What the house had booked before, taken back on this device. */
function reversed(rows: StandingRow[], command: Command, named: Named): StandingRow[] {
  switch (command.kind) {
    case "move": {
      const { body } = command;
      if (!body.from_area) return rows;
      const made = rows.find(({ batch }) => batch === command.id);
      const part = made && partOf(rows, body.batch, body.quantity);
      // what was frozen or thawed by the move is what it was again; where nothing is left of that, the house says it
      if (made && !part) return rows;
      if (part) {
        const without = rows.filter((row) => row !== made);
        return replaced(without, part.row, grown(part, named.area(body.from_area).name));
      }
      const back = { ...body, area: body.from_area, from_area: body.area };
      return moved(rows, { ...command, body: back }, named);
    }
    case "take_out":
    case "waste":
    case "use": {
      const { body } = command;
      const part = partOf(rows, body.batch ?? "", body.quantity);
      const from = "area" in body ? areaOf(body.area, named) : null;
      const area = from ?? part?.row.area;
      return part && area ? replaced(rows, part.row, grown(part, area)) : rows;
    }
    case "open":
    case "freeze":
    case "thaw":
    case "decant":
    case "vacuum_pack": {
      const { body } = command;
      const part = partOf(rows, body.batch, body.quantity);
      const area = part?.row.area;
      // where nothing is left of what it was made of, only the house knows that batch: the food stays shown
      if (!part || !area) return rows;
      const without = rows.filter(({ batch }) => batch !== body.child);
      return replaced(without, part.row, grown(part, area));
    }
    case "receive":
    case "harvest":
      return rows.filter(({ batch }) => batch !== command.body.batch);
    case "shop_run": {
      const bought = new Set(command.body.lines?.map(({ batch }) => batch));
      return rows.filter(({ batch }) => !bought.has(batch));
    }
    default:
      return rows;
  }
}
