import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { countsShown } from "../src/door/outbox/counted";
import type { CountLine, CountsRow, ItemRow, StockRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import { inAll, packsOf } from "../src/screens/porter/counts/amounts";
import { countBody, differences, isSaid } from "../src/screens/porter/counts/comparing";
import {
  asked,
  changed,
  type Draft,
  EMPTY,
  type Line,
  lineFor,
  linesOf,
  nextLine,
  written,
  writtenAgain,
} from "../src/screens/porter/counts/sheet";

const AREA = "Cold room";

function item(id: string, unit = "g", more: Partial<ItemRow> = {}): ItemRow {
  return { id, item: id, unit, packs: [], in_pieces: false, ...more } as ItemRow;
}

const ITEMS = [item("butter"), item("salmon"), item("milk", "ml"), item("eggs", "each")];

function standing(batch: string, of: string, value: string, until: string | null = null): StockRow {
  const areas = { [AREA]: { value, unit: "g" } };
  return { batch, label: batch, item_id: of, areas, usable_until: until } as unknown as StockRow;
}

function line(of: string, more: Partial<CountLine> = {}): CountLine {
  const said = { closely: false, tolerance: 5, promised_soon: [], why: null, counted_at: null };
  return { item: of, item_id: of, unit: "g", ...said, ...more };
}

function sheet(...lines: CountLine[]): CountsRow {
  return { area: AREA, area_id: "cold-room", lines, levels: [] } as unknown as CountsRow;
}

const ROW = sheet(line("milk"), line("butter"), line("salmon", { closely: true, tolerance: 3 }));
const STOCK = [
  standing("m1", "milk", "1000", "2027-03-14"),
  standing("m2", "milk", "2000", "2027-03-11"),
  standing("b1", "butter", "500", "2027-03-20"),
  standing("b2", "butter", "500", "2027-03-20"),
  standing("s1", "salmon", "1000", "2027-03-10"),
];
/** A line by its key, to be written down. */
function plain(key: string): Line {
  const found = linesOf(ROW, STOCK, ITEMS, EMPTY).find((each) => each.key === key);
  return found ?? { key, item: item(key), label: null, batch: null, batches: [], of: null };
}
const keys = (draft: Draft = EMPTY) => linesOf(ROW, STOCK, ITEMS, draft).map(({ key }) => key);

describe("the sheet of a storage area", () => {
  it("has the order of the shelves, and batches only where they end on different days", () => {
    expect(keys()).toEqual(["m2", "m1", "butter", "salmon"]);
  });
  it("has what else was found behind the others, once", () => {
    expect(keys({ ...EMPTY, added: ["eggs", "butter"] }).at(-1)).toBe("eggs");
  });
  it("does not tear apart a line that was written down already", () => {
    expect(keys(written(EMPTY, plain("milk"), "3000", ""))).toEqual(["milk", "butter", "salmon"]);
  });
  it("keeps what was written down of a batch that is gone from the books since", () => {
    const draft = written(EMPTY, plain("m1"), "900", "");
    const left = STOCK.filter(({ batch }) => batch !== "m1");
    const lines = linesOf(ROW, left, ITEMS, draft);
    expect(lines.map(({ key }) => key)).toEqual(["m2", "butter", "salmon", "m1"]);
    expect(countBody("cold-room", AREA, lines, draft).lines).toMatchObject([
      { batch: "m1", quantity: { value: "900", unit: "ml" } },
    ]);
  });
  it("goes on with the next line that nobody has counted, and begins again at the top", () => {
    const lines = linesOf(ROW, STOCK, ITEMS, EMPTY);
    const draft = written(EMPTY, plain("butter"), "1000", "");
    expect(nextLine(lines, EMPTY)?.key).toBe("m2");
    expect(nextLine(lines, draft, "butter")?.key).toBe("salmon");
    expect(nextLine(lines, written(draft, plain("salmon"), "1", ""), "salmon")?.key).toBe("m2");
  });
  it("finds the line of a code: the batch's own, or its item's", () => {
    const lines = linesOf(ROW, STOCK, ITEMS, EMPTY);
    expect(lineFor(lines, "milk", "m1")?.key).toBe("m1");
    expect(lineFor(lines, "butter", "b2")?.key).toBe("butter");
    expect(lineFor(lines, "milk")?.key).toBe("m2");
    expect(lineFor(lines, "eggs")).toBeUndefined();
  });
});

describe("what is due", () => {
  const row = sheet(line("milk", { why: "weekly" }), line("butter"), line("salmon"));
  const of = (draft: Draft) =>
    asked(linesOf(row, STOCK, ITEMS, draft), draft).map(({ key }) => key);
  it("is counted alone, with what was begun or found beside it, unless all of it is wanted", () => {
    expect(of(EMPTY)).toEqual(["m2", "m1"]);
    expect(of({ ...written(EMPTY, plain("salmon"), "1", ""), added: ["eggs"] })).toEqual([
      "m2",
      "m1",
      "salmon",
      "eggs",
    ]);
    expect(of({ ...EMPTY, all: true })).toHaveLength(4);
  });
  it("is everything where nothing is due", () => {
    expect(asked(linesOf(ROW, STOCK, ITEMS, EMPTY), EMPTY)).toHaveLength(4);
  });
});

describe("SY4 a count that the house did not have yet", () => {
  const row = { ...sheet(line("milk", { why: "weekly" }), line("butter")), due: 1 };
  const other = { ...row, area: "Pantry", area_id: "pantry" };
  const lines = [{ item: "milk", quantity: "3 l" }];
  const count = { id: "c", kind: "count", at: "2027-03-10T08:00:00Z", person: "Calum Whin" };
  const savedAt = Date.parse(count.at);
  const entry = { id: "c", savedAt, command: { ...count, body: { area: "cold-room", lines } } };
  const back = { id: "d", command: { id: "d", kind: "correct", body: { command: "c" } } };
  const fresh = (...all: unknown[]) => countsShown([row, other], all as Entry[]);
  it("stands in what is shown, and is due no more", () => {
    const [shown, beside] = fresh(entry);
    expect(shown).toMatchObject({ counted_at: count.at, counted_by: count.person, due: 0 });
    expect(beside).toBe(other);
  });
  it("stands at the house's time, whatever the clock of the phone shows", () => {
    const wrong = { ...entry, command: { ...entry.command, at: "2026-01-01T00:00:00Z" } };
    expect(fresh(wrong)[0]?.counted_at).toBe(count.at);
  });
  it("does not where it was taken back", () => {
    expect(fresh(entry, back)).toEqual([row, other]);
  });
});

describe("what is keyed", () => {
  const milk = item("milk", "ml", {
    packs: [
      { id: "a", pack: "2 l", quantity: { value: "2000", unit: "ml" } },
      { id: "b", pack: "2 l", quantity: { value: "2000", unit: "ml" } },
      { id: "c", pack: "1 l", quantity: { value: "1000", unit: "ml" } },
    ] as ItemRow["packs"],
  });
  const [pack] = packsOf(milk);
  const keyed = (packs: string, loose: string, inLarger = false) =>
    inAll({ packs, loose, inLarger }, milk, pack);
  it("names each size of pack once", () => {
    expect(packsOf(milk).map(({ id }) => id)).toEqual(["a", "c"]);
  });
  it("is whole packs and what is loose, exactly", () => {
    expect(keyed("3", "")).toBe("6000");
    expect(keyed("3", "250")).toBe("6250");
    expect(keyed("", "1.3", true)).toBe("1300");
    expect(keyed("0", "")).toBe("0");
  });
  it("is nothing where nothing is keyed, or what cannot be read", () => {
    expect(keyed("", "")).toBeNull();
    expect(keyed("1.5", "")).toBeNull();
    expect(keyed("", "1.2.3")).toBeNull();
  });
});

describe("LG3 a count held against the books", () => {
  const compared = (draft: Draft, row = ROW) =>
    differences(linesOf(row, STOCK, ITEMS, draft), draft, AREA);
  it("says only what differs, and asks nothing within the tolerance", () => {
    expect(compared(written(EMPTY, plain("butter"), "1000", ""))).toEqual([]);
    const [small] = compared(written(EMPTY, plain("butter"), "950", ""));
    expect(small).toMatchObject({ stood: "1000", by: "-50", asks: null });
  });
  it("asks why where it is further off, and does not wait for an answer", () => {
    const found = compared(written(EMPTY, plain("butter"), "949", ""));
    expect(found[0]?.asks).toBe("why");
    expect(isSaid(found)).toBe(true);
  });
  it("wants a second count of what matters, which decides", () => {
    const first = written(EMPTY, plain("salmon"), "700", "");
    expect(compared(first)[0]?.asks).toBe("again");
    expect(isSaid(compared(first))).toBe(false);
    const second = writtenAgain(first, plain("salmon"), "720", "");
    expect(second.entries[0]).toMatchObject({ found: "720", first: "700" });
    expect(isSaid(compared(second))).toBe(true);
  });
  it("lets who is alone leave the second count to somebody else", () => {
    const draft = changed(written(EMPTY, plain("salmon"), "700", ""), "salmon", { left: true });
    expect(isSaid(compared(draft))).toBe(true);
  });
  it("asks first whether what is missing was taken out already", () => {
    const promised_soon = [{ batch: "s1", quantity: { value: "300", unit: "g" as const } }];
    const row = sheet(line("salmon", { closely: true, tolerance: 3, promised_soon }));
    const draft = written(EMPTY, plain("salmon"), "700", "");
    expect(compared(draft, row)[0]?.asks).toBe("taken_out");
    expect(compared(changed(draft, "salmon", { takenOut: true }), row)[0]?.asks).toBeNull();
    expect(compared(changed(draft, "salmon", { takenOut: false }), row)[0]?.asks).toBe("again");
    expect(compared(written(EMPTY, plain("salmon"), "600", ""), row)[0]?.asks).toBe("again");
  });
  it("is told as one command, its lines in the order they were counted in", () => {
    let draft = written(EMPTY, plain("salmon"), "700", "");
    draft = written(draft, plain("butter"), "900", "");
    draft = writtenAgain(draft, plain("salmon"), "720", "");
    draft = written(changed(draft, "butter", { reason: "given away" }), plain("m1"), "1000", "");
    const lines = linesOf(ROW, STOCK, ITEMS, draft);
    expect(countBody("cold-room", AREA, lines, draft)).toEqual({
      area: "cold-room",
      lines: [
        { item: "salmon", quantity: { value: "720", unit: "g" }, second: true },
        { item: "butter", quantity: { value: "900", unit: "g" }, reason: "given away" },
        { batch: "m1", quantity: { value: "1000", unit: "ml" } },
      ],
    });
  });
  it("calls the first count of what matters a first one: the house may know more", () => {
    const draft = written(EMPTY, plain("salmon"), "1000", "");
    const lines = linesOf(ROW, STOCK, ITEMS, draft);
    expect(countBody("cold-room", AREA, lines, draft).lines[0]).toMatchObject({ second: false });
  });
});

describe("a count that is half done", () => {
  beforeEach(() => {
    vi.resetModules();
    globalThis.indexedDB = new IDBFactory();
  });
  it("is there again after the page was killed", async () => {
    const before = await import("../src/screens/porter/counts/kept");
    const draft = written(EMPTY, plain("butter"), "900", "");
    before.keptDraft("cold-room").change(draft);
    const { draftOf } = await import("../src/door/drafts");
    await vi.waitFor(async () => expect(await draftOf("count cold-room")).toEqual(draft));
    vi.resetModules();
    const after = (await import("../src/screens/porter/counts/kept")).keptDraft("cold-room");
    await after.read();
    expect(after.draft.value).toEqual(draft);
    after.forget();
    const anew = (await import("../src/screens/porter/counts/kept")).keptDraft("cold-room");
    await vi.waitFor(async () => {
      await anew.read();
      expect(anew.draft.value).toEqual(EMPTY);
    });
  });
});
