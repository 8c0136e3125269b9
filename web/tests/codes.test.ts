import { describe, expect, it } from "vitest";
import carried from "../../tests/vectors/carried_codes.json";
import codes from "../../tests/vectors/codes.json";
import { lookUp } from "../src/door/codes/look_up";
import { read } from "../src/door/codes/read";
import { Refused } from "../src/door/problem";
import type { CodeRow, ItemRow, StockRow } from "../src/door/rows";

interface Case {
  name: string;
  scan: string;
  today: string;
  expected?: Partial<CodeRow["read"]>;
  refused?: string;
}

interface Found {
  name: string;
  scan: string;
  matches?: CodeRow["matches"];
  refused?: string;
}

/** What was refused, by its code; null where it was read. */
function refusal(what: () => unknown): string | null {
  try {
    what();
    return null;
  } catch (error) {
    if (error instanceof Refused) return error.problem.code;
    throw error;
  }
}

function told(scan: CodeRow["read"]): Record<string, unknown> {
  const kept = Object.entries(scan).filter(
    ([key, value]) =>
      key !== "elements" && value !== null && !(Array.isArray(value) && value.length === 0),
  );
  return Object.fromEntries(kept);
}

describe("a code says on the phone what it says in the house", () => {
  it.each(codes.cases as Case[])("$name", ({ scan, today, expected, refused }) => {
    if (refused) expect(refusal(() => read(scan, today))).toBe(refused);
    else expect(told(read(scan, today))).toEqual(expected);
  });
});

describe("what carries a code is found on the phone as the house finds it", () => {
  const { today, cases } = carried;
  // the rows hold what looking up needs, and no more
  const [items, stock] = [carried.items as ItemRow[], carried.stock as unknown as StockRow[]];
  it.each(cases as Found[])("$name", ({ scan, matches, refused }) => {
    const look = () => lookUp(scan, { items, stock, today });
    if (refused) expect(refusal(look)).toBe(refused);
    else expect(look().matches).toEqual(matches);
  });
});
