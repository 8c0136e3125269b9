import { expect, test } from "vitest";
import type { Command } from "../src/door/command";
import { about, decided } from "../src/words/decided";

type Decision = Pick<Command, "kind" | "body">;

const DINNER = "2027-03-12/dinner/family";

test.each([
  ["settle", { question: "q1", answer: "the books follow" }, "", ["The books follow"]],
  ["change_covers", { service: DINNER, covers: 6 }, "Fri 12 Mar dinner, family", ["6 covers"]],
  [
    "confirm",
    {
      service: DINNER,
      covers: 8,
      dishes: [
        { dish: "roast-lamb", portions: 5 },
        { dish: "trifle", variant: "without alcohol" },
      ],
    },
    "Fri 12 Mar dinner, family",
    ["8 covers", "Roast lamb, 5 portions", "Trifle, without alcohol"],
  ],
  [
    "propose",
    {
      service: { date: "2027-03-12", meal: "Dinner", table: "Family" },
      courses: [{ course: "main", dishes: ["roast-lamb", { dish: "sole" }] }],
    },
    "Fri 12 Mar dinner, family",
    ["Main: Roast lamb or Sole"],
  ],
  ["take_off", { service: DINNER, reason: "away" }, "Fri 12 Mar dinner, family", ["Reason: away"]],
  [
    "place_order",
    {
      supplier: "Hill Dairy",
      delivery: "2027-03-09",
      lines: [{ item: "butter", pack: "250 g block", packs: 4 }],
    },
    "Hill Dairy",
    ["4 x 250 g block Butter"],
  ],
  ["approve_recipe", { recipe: "sole", approved: false }, "Sole", ["May not be chosen"]],
  [
    "record_credit",
    { credit: "c1", amount: { minor: 410, currency: "GBP" }, note: "N 7" },
    "",
    ["4.10 GBP credited, note N 7"],
  ],
  ["record_credit", { credit: "c1", reason: "too old" }, "", ["Written off: too old"]],
  ["release", { batch: "b1", reason: "cold by now" }, "", ["Reason: cold by now"]],
])(
  "SY2: %s is told in words, so that two versions can be held against each other",
  (kind, body, of, lines) => {
    const decision = { kind, body } as unknown as Decision;
    expect(about(decision)).toBe(of);
    expect(decided(decision)).toEqual(lines);
  },
);
