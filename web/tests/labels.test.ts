import { expect, test } from "vitest";
import { isOn } from "../src/door/codes/is_on";
import { asPrinted } from "../src/door/codes/label_numbers";
import type { Command } from "../src/door/command";
import { labelsShown } from "../src/door/outbox/labels_shown";
import type { StockRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import { nextFree, ownPaper, PAPERS, type Paper, pdf } from "../src/screens/porter/labels/paper";
import { batchFirst, misread, standsAgainst } from "../src/screens/porter/labels/stands_against";

function row(batch: string, label: string, ...numbered: string[]): StockRow {
  return { batch, label, numbered } as unknown as StockRow;
}

function entry(id: string, kind: Command["kind"], body: object): Entry {
  return { id, command: { id, kind, body } } as unknown as Entry;
}

const numbersOf = (rows: StockRow[]) => rows.map(({ numbered }) => numbered);

/** The check digits are Damm's; python-stdnum computes the same (tests/outside/test_label_numbers.py). */
test("a numbered label may be typed without its hyphen, and one wrong figure is noticed", () => {
  expect(asPrinted("1001-9")).toBe("1001-9");
  expect(asPrinted(" 10019 ")).toBe("1001-9");
  for (const misread of ["1001-8", "1007-9", "1010-9", "0101-9", "KQ7PM", "1001", ""]) {
    expect(asPrinted(misread)).toBeNull();
  }
});

test("a batch is found by its own label and by every number that was put on it", () => {
  const jar = row("a", "KQ7PM", "1001-9");
  for (const label of ["KQ7PM", "1001-9", "10019"]) expect(isOn(jar, label)).toBe(true);
  expect(isOn(jar, "1002-0")).toBe(false);
  const keptByAnEarlierBuild = { label: "KQ7PM" } as unknown as StockRow;
  expect(isOn(keptByAnEarlierBuild, "1001-9")).toBe(false);
});

test("[SY4] a label put on here is on its batch before the house has it, and off the one it was on", () => {
  const put = entry("1", "bind_label", { batch: "b", label: "1001-9" });
  const rows = [row("a", "AAAAA", "1001-9"), row("b", "BBBBB")];
  expect(numbersOf(labelsShown(rows, [put], [put]))).toEqual([[], ["1001-9"]]);
  expect(numbersOf(labelsShown(rows, [], [put]))).toEqual([["1001-9"], []]);
});

test("[SY4] a label taken off again is off, whether the house had it or not", () => {
  const put = entry("1", "bind_label", { batch: "a", label: "1001-9" });
  const undo = entry("2", "correct", { command: "1", reason: "recorded by mistake" });
  const known = [row("a", "AAAAA", "1001-9")];
  expect(numbersOf(labelsShown(known, [undo], [put, undo]))).toEqual([[]]);
  const unknown = [row("a", "AAAAA")];
  expect(numbersOf(labelsShown(unknown, [put, undo], [put, undo]))).toEqual([[]]);
});

test("a begun sheet goes on where it was left, a roll always at its one label", () => {
  const [sheet, roll] = [PAPERS[0], PAPERS.find(({ onPage }) => onPage === 1)] as [Paper, Paper];
  expect(nextFree(sheet, 1, 5)).toBe(6);
  expect(nextFree(sheet, 6, 20)).toBe(2);
  expect(nextFree(sheet, 1, 24)).toBe(1);
  expect(nextFree(roll, 1, 7)).toBe(1);
});

test("one's own measures say how many labels a page has", () => {
  expect(ownPaper("A4/2x5/90x50")).toMatchObject({ measures: "a4/2x5/90x50", onPage: 10 });
  expect(ownPaper("60x40")?.onPage).toBe(1);
  expect(ownPaper("a napkin")).toBeNull();
});

test("what is printed stands in the address", () => {
  const [sheet] = PAPERS as [Paper];
  const address = new URL(
    pdf(sheet, 3, [
      ["batch", "x"],
      ["batch", "y"],
    ]),
    "https://house.example",
  );
  expect(address.searchParams.getAll("batch")).toEqual(["x", "y"]);
  expect(address.searchParams.get("paper")).toBe("a4/3x8/70x37");
  expect(address.searchParams.get("start")).toBe("3");
});

test("a number that is on a batch, or was never printed here, is told at once", () => {
  const stock = [{ ...row("a", "KQ7PM", "1001-9"), item: "Whole milk" }] as StockRow[];
  const printed = [
    { first: 1001, last: 1024 },
    { first: 5001, last: 5001 },
  ];
  const against = (label: string, batch: string | null = null, known = printed) =>
    standsAgainst(label, batch, { stock, printed: known })?.code ?? null;
  expect(against("1001-9")).toBe("label_taken");
  expect(against("1001-9", "a")).toBe("label_on_it");
  expect(standsAgainst("1001-9", "b", { stock, printed })?.detail).toContain("Whole milk, KQ7PM");
  expect(["1002-0", "1024-0", "5001-0"].map((label) => against(label))).toEqual([null, null, null]);
  expect(["1000-0", "1025-0", "5002-0"].map((label) => against(label))).toEqual(
    Array(3).fill("label_never_printed"),
  );
  expect(against("1002-0", null, [])).toBe("label_never_printed");
  const keptByAnEarlierBuild = { stock, printed: undefined };
  expect(standsAgainst("9999-0", null, keptByAnEarlierBuild)).toBeNull();
});

test("what is no number is told from a number that is on nothing yet", () => {
  expect(misread("1001-8").detail).toContain("1001-8");
  expect(batchFirst("1001-9")?.code).toBe("batch_first");
  expect(batchFirst("KQ7PM")).toBeNull();
  expect(batchFirst(null)).toBeNull();
});

test("[SY4] a label put on what was received here is on it before the house has either, and free once it is taken back", () => {
  const came = {
    batch: "n",
    item: "milk",
    quantity: { value: "1", unit: "l" },
    area: "a",
    verdict: "accept",
  };
  const put = entry("2", "bind_label", { batch: "n", label: "1002-0" });
  const rows = [row("n", "")];
  expect(numbersOf(labelsShown(rows, [entry("1", "receive", came), put], [put]))).toEqual([
    ["1002-0"],
  ]);
  expect(numbersOf(labelsShown([], [put], [put]))).toEqual([]);
});
