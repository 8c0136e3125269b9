import { describe, expect, it } from "vitest";
import type { StayChangeRow } from "../src/door/rows";
import { among } from "../src/screens/chef/presence/choices";
import { followingSaid, stayWords } from "../src/screens/chef/presence/stay_words";

const stay = (
  first: string,
  first_at: string | null,
  last: string | null,
  last_at: string | null,
) => stayWords({ first, first_at, last, last_at });

describe("a stay in words", () => {
  it("says its first meal and its last, and a single meal once", () => {
    expect(stay("2027-03-12", "dinner", "2027-03-15", "lunch")).toBe(
      "Fri 12 Mar dinner to Mon 15 Mar lunch",
    );
    expect(stay("2027-03-24", "dinner", "2027-03-24", "dinner")).toBe("Wed 24 Mar, dinner");
    expect(stay("2027-03-24", "lunch", "2027-03-24", null)).toBe(
      "Wed 24 Mar, lunch to the last meal",
    );
    expect(stay("2027-03-24", null, "2027-03-24", null)).toBe("Wed 24 Mar, all day");
    expect(stay("2027-03-24", null, null, null)).toBe("Wed 24 Mar until further notice");
  });

  it("can be chosen as it stands, though it began before today", () => {
    const days = ["2027-03-10", "2027-03-11"].map((value) => ({ value, label: value }));
    const values = (chosen: string) => among(days, chosen).map(({ value }) => value);
    expect(values("2027-03-11")).toEqual(["2027-03-10", "2027-03-11"]);
    expect(values("2027-03-08")).toEqual(["2027-03-08", "2027-03-10", "2027-03-11"]);
    expect(values("2027-04-20")).toEqual(["2027-03-10", "2027-03-11", "2027-04-20"]);
  });
});

describe("what a stay does to a menu, in words", () => {
  const said = (following: StayChangeRow["following"], more: Partial<StayChangeRow> = {}) =>
    followingSaid({
      state: "proposed",
      covers: 6,
      would_be: 8,
      following,
      ...more,
    } as StayChangeRow);

  it("is said for each way it can go", () => {
    expect(said("follows")).toBe("proposed for 6: it is for 8 then");
    expect(said("keeps")).toBe("proposed for 6, a number of the chef's: it stays");
    expect(said("asked", { state: "confirmed" })).toBe("confirmed for 6: the chef is asked");
    expect(said("asked", { would_be: 0 })).toBe(
      "proposed for 6, and nobody eats: the chef is asked",
    );
    expect(said("agrees", { would_be: 6 })).toBe("proposed for 6, as it is said then");
  });
});
