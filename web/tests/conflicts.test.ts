import { describe, expect, it } from "vitest";
import {
  type Against,
  holdsSaid,
  NOTHING_SAFE,
  notFor,
  safeSaid,
  whoSaid,
} from "../src/words/conflicts";

const NUTS: Against = {
  ...{
    person: "Ottilie",
    cannot_eat: "nuts",
    certainty: "contains",
    through: ["Pesto", "Walnuts"],
  },
  safe: { dish: "green-salad", name: "Green salad", variant: null, on_menu: false },
  ...{ agreed: null, asked: false },
};

describe("AL3 who cannot eat a dish", () => {
  it("is said with the dish, what it contains and through what", () => {
    expect(notFor({ ...NUTS, person: "Ottilie" }, "Walnut salad")).toBe(
      "For Ottilie: not Walnut salad, it contains nuts (Pesto, in it Walnuts)",
    );
    expect(holdsSaid({ cannot_eat: "milk", certainty: "may_contain" })).toBe("it may contain milk");
  });

  it("is somebody at the table to who is not told whose it is", () => {
    expect(whoSaid(null)).toBe("somebody at the table");
  });

  it("says of a chosen menu whether the safe dish stands on it, and says where there is none", () => {
    expect(safeSaid(NUTS, "confirmed")).toBe("safe: Green salad, which is not on this menu");
    expect(safeSaid(NUTS, "proposed")).toBe("safe: Green salad");
    expect(safeSaid({ safe: null }, "confirmed")).toBe(NOTHING_SAFE);
  });
});
