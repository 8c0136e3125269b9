import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Command } from "../src/door/command";
import type { Named, StandingRow } from "../src/door/outbox/batch_parts";
import { notIn } from "../src/door/outbox/laying";
import { standingShown } from "../src/door/outbox/standing";
import type { HouseRow, ItemRow } from "../src/door/rows";
import { standingAt } from "../src/door/shelf_life";
import { entries } from "./answered_entries";

/** The real house is told the same stories in `tests/commands/test_standing_shown.py`. */
interface Story {
  name: string;
  had: Command[];
  fresh: Command[];
  before: StandingRow[];
  after: StandingRow[];
}

const file = new URL("../../tests/vectors/standing.json", import.meta.url);
const stories = JSON.parse(readFileSync(file, "utf-8")) as Story[];

/** What the house tells of itself, and a phone reckons by. */
interface Told extends Pick<HouseRow, "zone" | "lives"> {
  areas: Pick<HouseRow["areas"][number], "id" | "area" | "kind">[];
  items: Pick<ItemRow, "id" | "item" | "unit" | "lives">[];
}

const of = JSON.parse(
  readFileSync(new URL("../../tests/vectors/larkfield.json", import.meta.url), "utf-8"),
) as Told;

const larkfield: Named = {
  area: (named) => {
    const area = of.areas.find(({ id, area }) => id === named || area === named);
    return { name: area?.area ?? named, isFrozen: area?.kind === "frozen" };
  },
  item: (named) => {
    const item = of.items.find(({ id }) => id === named);
    return item ? { ...item, name: item.item } : null;
  },
  zone: of.zone,
  lives: of.lives,
};

/** What the house told of the same rows, in the order of their batches. */
function told(rows: StandingRow[], at: string): unknown[] {
  return rows
    .map((row) => standingAt(row, at))
    .map((row) => ({
      item_id: row.item_id,
      batch: row.batch,
      state: row.state,
      was_thawed: row.was_thawed,
      date_mark: row.date_mark,
      usable_until: row.usable_until,
      good_until: row.good_until,
      left: row.left,
      usable: row.usable,
      flagged: row.flagged,
      area: row.area,
      areas: row.areas,
      on_hand: row.on_hand,
      promised: row.promised,
      on_hold: row.on_hold,
      available: row.available,
    }))
    .sort((one, other) => (one.batch < other.batch ? -1 : 1));
}

/** When the house was asked: as the last of the records was made. */
function lastOf(all: { command: Command }[]): string {
  const [last = ""] = all
    .map(({ command }) => command.at)
    .sort()
    .reverse();
  return last;
}

function shown({ had, fresh, before }: Story, positions: (number | null)[]): unknown[] {
  const all = entries([...had, ...fresh], positions);
  const rows = before.map((row) => ({ ...row, label: row.batch, numbered: [] as string[] }));
  const nothing = { value: "0", unit: rows[0]?.on_hand.unit ?? "ml" };
  const whole = rows.map((row) => ({ ...row, emergency: nothing }));
  return told(standingShown(whole, notIn(all, had.length), all, larkfield), lastOf(all));
}

for (const story of stories) {
  const { name, had, fresh } = story;
  const after = [...story.after].sort((one, other) => (one.batch < other.batch ? -1 : 1));
  const places = had.map((_, at) => at + 1);

  test(`SY4: ${name}, while it waits`, () => {
    expect(shown(story, [...places, ...fresh.map(() => null)])).toEqual(after);
  });

  test(`SY4: ${name}, answered after the rows were told`, () => {
    const later = fresh.map((_, at) => had.length + at + 1);
    expect(shown(story, [...places, ...later])).toEqual(after);
  });
}

/** Milk, of which so much was told by the house. */
function milk(more: Partial<StandingRow>): StandingRow {
  const [story] = stories;
  const [row] = story?.before ?? [];
  const nothing = { value: "0", unit: "ml" as const };
  return { ...row, label: "M-1", numbered: [], emergency: nothing, ...more } as StandingRow;
}

function opening(quantity: string): Command {
  const part = { value: quantity, unit: "ml" };
  return { id: "o", kind: "open", body: { batch: "M-1", quantity: part, child: "c" } } as Command;
}

test("SL3: where the lives were never told, the dates are left to the house, and are not its parent's", () => {
  const row = milk({
    usable_until: "2027-03-20T23:59:59Z",
    date_mark: { kind: "use_by", date: "2027-03-20" },
    was_thawed: true,
  });
  const part = { value: "100", unit: "ml" };
  const silent: Named = { area: larkfield.area, item: larkfield.item, zone: larkfield.zone };
  for (const kind of ["open", "freeze", "thaw", "vacuum_pack"] as const) {
    const at = "2027-03-09T07:00:00Z";
    const record = { id: kind, kind, at, body: { batch: "M-1", quantity: part, child: kind } };
    const all = entries([record as Command], [null]);
    const [, child] = standingShown([row], all, all, silent);
    expect(child).toMatchObject({ usable_until: null, good_until: null, isOwn: true });
    expect(child).toMatchObject({ isUntold: true, was_thawed: true });
    expect(child?.date_mark.kind).toBe(kind === "freeze" || kind === "thaw" ? "none" : "use_by");
  }
});

test("SY4: food whose treatment is taken back does not vanish where all of it was treated", () => {
  const child = milk({ batch: "c", label: "M-2", state: "opened" });
  const correct = { id: "x", kind: "correct", body: { command: "o", reason: "" } } as Command;
  const all = entries([opening("1000"), correct], [1, null]);
  const [, fresh] = all;
  expect(standingShown([child], fresh ? [fresh] : [], all, larkfield)).toEqual([child]);
});
