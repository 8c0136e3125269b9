import { expect, test } from "vitest";
import { hourOf } from "../src/screens/manager/alerts/words";

test("an hour is understood as people write it", () => {
  expect(["7", "7:30", "07.30", " 18:00 ", "0:00"].map(hourOf)).toEqual([
    "07:00",
    "07:30",
    "07:30",
    "18:00",
    "00:00",
  ]);
});

test("what is no hour is none", () => {
  expect(["", "24:00", "7:60", "noon", "7:3", "123"].map(hourOf)).toEqual(Array(6).fill(null));
});
