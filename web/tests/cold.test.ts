import { expect, test } from "vitest";
import type { Command } from "../src/door/command";
import { placesShown } from "../src/door/outbox/cold";
import type { ColdPlaceRow } from "../src/door/rows";
import type { Entry } from "../src/door/store";
import { isLeft, warmthAt } from "../src/words/cold";

const PLACE: ColdPlaceRow = {
  area_id: "cold-room",
  area: "Cold room",
  kind: "chilled",
  min_c: "0",
  max_c: "5",
  max_source: "this house",
  again_minutes: 30,
  failed: false,
  last: null,
  readings: [],
  rounds: [
    {
      day: "2027-03-08",
      number: 1,
      of: 2,
      start: "2027-03-08T00:00:00Z",
      end: "2027-03-08T12:00:00Z",
      taken: false,
    },
  ],
  caution: "",
};

const AT = Date.parse("2027-03-08T08:00:00Z");

function entry(id: string, kind: string, body: object): Entry {
  const command = { id, kind, at: "2027-03-08T07:10:00Z", person: "Pia Holm", body };
  return {
    id,
    command: command as Command,
    answered: null,
    savedAt: Date.parse(command.at),
  } as Entry;
}

const BREACH = entry("a", "take_temperature", { area: "cold-room", temperature_c: "7.5" });

test("SL5: a phone says what is too warm and too cold by itself", () => {
  const said = ["5", "5.1", "-0.1", "0", "5,0", "warm"].map((typed) => warmthAt(PLACE, typed));
  expect(said).toEqual(["within", "too_warm", "too_cold", "within", "within", null]);
});

test("SY4: a reading of this phone stands in its place, and its round is done", () => {
  const [shown] = placesShown([PLACE], [BREACH]);
  expect(shown?.last).toMatchObject({ temperature_c: "7.5", warmth: "too_warm" });
  expect(shown && isLeft(shown, AT)).toBe(false);
  expect(isLeft(PLACE, AT)).toBe(true);
});

test("SY4: what was taken back is shown no more", () => {
  const back = entry("b", "correct", { command: "a", reason: "mistake" });
  expect(placesShown([PLACE], [BREACH, back])).toEqual([PLACE]);
  const [told] = placesShown([PLACE], [BREACH]);
  const [left] = placesShown(told ? [told] : [], [back]);
  expect(left?.last).toBeNull();
  expect(left && isLeft(left, AT)).toBe(true);
});
