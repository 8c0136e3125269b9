import type { BodyOf, Command, CommandOf } from "../command";
import type { PickRow, PreparationRow, PullRow, RowOf, ServingRow } from "../rows";
import type { Entry } from "../store";
import { less, reaching, sign } from "../sums";
import { notTakenBack, takenBack } from "./taken_back";

type MorningRow = RowOf<"morning">;

/** What stands of these records: those that none of them takes back, in the order they were saved. */
function standing(fresh: Entry[]): Command[] {
  return notTakenBack(fresh).map(({ command }) => command);
}

/** What is to be done again, since what was done was taken back here. */
function reopened<Row extends { done: { command: string } | null }>(
  rows: Row[],
  fresh: Entry[],
): Row[] {
  const back = takenBack(fresh);
  return rows.map((row) => (row.done && back.has(row.done.command) ? { ...row, done: null } : row));
}

/** The pull list, once these records are in it: what was taken out of a freezer here is ticked. */
export function pullShown(rows: PullRow[], fresh: Entry[]): PullRow[] {
  const shown = reopened(rows, fresh);
  for (const command of standing(fresh)) {
    if (command.kind !== "thaw") continue;
    const { id, at, body } = command;
    const place = shown.findIndex((row) => !row.done && row.batch === body.batch);
    const row = shown[place];
    if (!row) continue;
    const done = { command: id, at, child: body.child, label: body.label ?? "" };
    shown[place] = { ...row, done };
  }
  return shown;
}

/** The morning sheet, once these records are in it, without what was pulled here, or thrown away that had died. */
export function morningShown(rows: MorningRow[], fresh: Entry[]): MorningRow[] {
  const out = new Set(
    standing(fresh).flatMap((each) => (each.kind === "thaw" ? [each.body.batch] : [])),
  );
  const gone = new Set(
    standing(fresh).flatMap((each) => (each.kind === "waste" ? [each.body.batch] : [])),
  );
  return rows.filter((row) => {
    if (row.what === "left") return row.kind !== "batch" || !gone.has(row.key);
    return row.what !== "pull" || !out.has(row.batch);
  });
}

/** The pick list, once these records are in it: what was brought is ticked, whatever batch it was of. */
export function pickShown(rows: PickRow[], fresh: Entry[]): PickRow[] {
  let shown = reopened(rows, fresh);
  for (const command of standing(fresh)) {
    if (command.kind === "take_out") shown = brought(shown, command);
  }
  return shown;
}

function brought(rows: PickRow[], { id, at, body }: CommandOf<"take_out">): PickRow[] {
  const row =
    rows.find((each) => isFor(each, body) && each.batch === body.batch) ??
    rows.find((each) => isFor(each, body) && each.others.some(({ batch }) => batch === body.batch));
  if (!row) return rows;
  const other = row.others.find(({ batch }) => batch === body.batch);
  const quantity = taken(row, body);
  const done: PickRow = {
    ...row,
    ...(other && { batch: other.batch, label: other.label, area: other.area }),
    quantity: { ...row.quantity, value: quantity },
    take: { ...row.quantity, value: quantity },
    others: [],
    done: { command: id, at },
  };
  const rest = less(row.quantity.value, quantity);
  const left = sign(rest) > 0 ? [stillWanted(row, rest)] : [];
  return [...rows.flatMap((each) => (each === row ? left : [each])), done];
}

/** A row of which so much is wanted still: in pieces, whole ones are brought. */
function stillWanted(row: PickRow, value: string): PickRow {
  const isPieces = row.quantity.unit === "each";
  const take = isPieces ? String(reaching(value, "1")) : value;
  return { ...row, quantity: { ...row.quantity, value }, take: { ...row.take, value: take } };
}

function isFor(row: PickRow, { service, preparation }: BodyOf<"take_out">): boolean {
  if (row.done) return false;
  return row.preparation === null
    ? service === row.service
    : !service && preparation === row.preparation;
}

/** How much of a row a record took; all of it where that is not said in the item's own unit. */
function taken(row: PickRow, { quantity }: BodyOf<"take_out">): string {
  const said = typeof quantity !== "string" && quantity.unit === row.quantity.unit;
  return said ? quantity.value : row.quantity.value;
}

/** The preparation list, once these records are in it: what was made here is ticked. */
export function preparationsShown(rows: PreparationRow[], fresh: Entry[]): PreparationRow[] {
  const back = takenBack(fresh);
  const shown = rows.filter((row) => !row.done || !back.has(row.done.command));
  for (const command of standing(fresh)) {
    if (command.kind !== "make") continue;
    const { id, body } = command;
    const place = shown.findIndex((row) => !row.done && row.recipe === body.recipe);
    const row = shown[place];
    if (!row) continue;
    const done = { command: id, batch: body.child, label: body.label ?? "" };
    shown[place] = { ...row, start: command.at, making: null, done };
  }
  return shown;
}

/** What is served, once these records are in it: what was served here, or what of that was taken back. */
export function servingShown(rows: ServingRow[], fresh: Entry[]): ServingRow[] {
  const back = takenBack(fresh);
  const made = standing(fresh);
  return rows.map((row) => {
    if (row.done && back.has(row.done.command)) {
      const dishes = row.dishes.map((dish) => ({ ...dish, served: null }));
      return { ...row, state: "confirmed", dishes, done: null };
    }
    const served = made.find((each) => each.kind === "serve" && each.body.service === row.service);
    if (served?.kind !== "serve" || row.done) return row;
    const { id, at, person, body } = served;
    const dishes = row.dishes.map((dish) => {
      const said = body.dishes?.find(
        (each) => each.dish === dish.dish && (each.variant ?? null) === dish.variant,
      );
      return said ? { ...dish, served: said.portions } : dish;
    });
    return { ...row, state: "served", dishes, done: { command: id, at, person: person ?? "" } };
  });
}
