import { describe, expect, it } from "vitest";
import type { Command } from "../src/door/command";
import { morningShown, pickShown, pullShown } from "../src/door/outbox/lists";
import type { PickRow, PullRow, RowOf } from "../src/door/rows";
import type { Entry } from "../src/door/store";

function saved(...commands: Pick<Command, "id" | "kind" | "body">[]): Entry[] {
  const at = "2027-03-10T07:10:00Z";
  return commands.map((command) => ({ id: command.id, command: { ...command, at } }) as Entry);
}

const VENISON = { batch: "v", label: "B-0241", done: null } as PullRow;
const PASTRY = { batch: "p", label: "B-0219", done: null } as PullRow;
const thaw = { id: "t", kind: "thaw" as const, body: { batch: "v", quantity: "1 kg", child: "c" } };
const back = (command: string) => ({
  id: `back ${command}`,
  kind: "correct" as const,
  body: { command, reason: "by mistake" },
});

describe("SY4 the pull list with what this phone recorded", () => {
  it("ticks what was taken out here, and nothing else", () => {
    const [venison, pastry] = pullShown([VENISON, PASTRY], saved(thaw));
    expect(venison?.done).toMatchObject({ command: "t", child: "c", at: "2027-03-10T07:10:00Z" });
    expect(pastry).toEqual(PASTRY);
  });
  it("shows what was taken back here as not done, whoever had it before", () => {
    expect(pullShown([VENISON], saved(thaw, back("t")))).toEqual([VENISON]);
    const told = { ...VENISON, done: { command: "t", at: "", child: "c", label: "B" } };
    expect(pullShown([told], saved(back("t")))).toEqual([VENISON]);
  });
  it("takes it from the morning sheet, too", () => {
    const rows = [
      { what: "pull", batch: "v" },
      { what: "pull", batch: "p" },
      { what: "dies", batch: "v" },
    ] as RowOf<"morning">[];
    expect(morningShown(rows, saved(thaw))).toEqual([rows[1], rows[2]]);
  });
});

const LUNCH = "2027-03-10/lunch/staff";
const OTHER = { batch: "r2", label: "B-0103", area: "Larder", left: { value: "5000", unit: "g" } };
const RICE = {
  service: LUNCH,
  preparation: null,
  batch: "r1",
  label: "B-0102",
  area: "Pantry",
  item: "Rice",
  quantity: { value: "560", unit: "g" },
  take: { value: "560", unit: "g" },
  others: [{ ...OTHER, usable_until: null }],
  done: null,
} as PickRow;
const FLOUR = { ...RICE, preparation: "Béchamel", batch: "f", others: [] } as PickRow;

function takes(id: string, batch: string, value: string, purpose: object = { service: LUNCH }) {
  const body = { batch, quantity: { value, unit: "g" }, ...purpose };
  return { id, kind: "take_out" as const, body };
}

describe("SY4 the morning sheet", () => {
  it("asks no more for what had died and was thrown away here", () => {
    const rows = [
      { what: "left", kind: "batch", key: "e" },
      { what: "left", kind: "delivery", key: "e" },
    ] as RowOf<"morning">[];
    const body = { batch: "e", quantity: "200 g", reason: "out_of_date", destination: "compost" };
    const wasted = { id: "w", kind: "waste" as const, body };
    expect(morningShown(rows, saved(wasted))).toEqual([rows[1]]);
  });
});

describe("SY4 the pick list with what this phone recorded", () => {
  it("ticks what was brought here", () => {
    const [flour, rice] = pickShown([RICE, FLOUR], saved(takes("a", "r1", "560")));
    expect(flour).toEqual(FLOUR);
    expect(rice).toMatchObject({ batch: "r1", done: { command: "a" }, others: [] });
  });
  it("keeps what is wanted still beside what was brought of it", () => {
    const [rest, brought] = pickShown([RICE], saved(takes("a", "r1", "60.5")));
    expect(rest).toMatchObject({ quantity: { value: "499.5" }, done: null });
    expect(brought).toMatchObject({ quantity: { value: "60.5" }, done: { command: "a" } });
  });
  it("ticks the line for another batch of the item, under that batch's label", () => {
    const rows = pickShown([RICE], saved(takes("a", "r2", "560")));
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ batch: "r2", label: "B-0103", area: "Larder" });
  });
  it("knows a meal from a preparation made for it, and from another meal", () => {
    const forSauce = takes("a", "f", "560", { preparation: "Béchamel" });
    expect(pickShown([RICE, FLOUR], saved(forSauce))[1]).toMatchObject({
      preparation: "Béchamel",
      done: { command: "a" },
    });
    const elsewhere = takes("a", "r1", "560", { service: "2027-03-11/lunch/staff" });
    expect(pickShown([RICE], saved(elsewhere))).toEqual([RICE]);
  });
  it("asks again for what was taken back", () => {
    expect(pickShown([RICE], saved(takes("a", "r1", "560"), back("a")))).toEqual([RICE]);
    const told = { ...RICE, done: { command: "a", at: "" } };
    expect(pickShown([told], saved(back("a")))).toEqual([RICE]);
  });
});
