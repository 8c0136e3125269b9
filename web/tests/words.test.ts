import { describe, expect, it } from "vitest";
import { amount, isNothing, minorUnits, money } from "../src/words/amounts";
import { moved, rounded } from "../src/words/numbers";
import { clock, dayOf, inDays, inWords, moment, near, span, until } from "../src/words/time";

describe("numbers as text, without floating point", () => {
  it.each([
    ["1225", -3, "1.225"],
    ["12000", -3, "12"],
    ["5", -3, "0.005"],
    ["450", -2, "4.5"],
    ["1.5", 3, "1500"],
    ["9007199254740993", -3, "9007199254740.993"],
    ["-20", -2, "-0.2"],
  ])("%s moved by %i is %s", (value, places, said) => {
    expect(moved(value, places)).toBe(said);
  });
  it.each([
    ["43.333", 0, "43"],
    ["26.667", 1, "26.7"],
    ["9.999", 2, "10"],
    ["0.05", 1, "0.1"],
    ["70", 0, "70"],
  ])("%s to %i places is %s", (value, places, said) => {
    expect(rounded(value, places)).toBe(said);
  });
});

describe("amounts in the words of a kitchen", () => {
  it("says kilograms and litres from a thousand on", () => {
    expect(amount({ value: "1225", unit: "g" })).toBe("1.225 kg");
    expect(amount({ value: "999.5", unit: "g" })).toBe("1000 g");
    expect(amount({ value: "3375", unit: "ml" }, ",")).toBe("3,375 l");
    expect(amount({ value: "6", unit: "each" })).toBe("6");
    expect(amount({ value: "0.4", unit: "g" })).toBe("0.4 g");
  });
  it("knows nothing from little", () => {
    expect(isNothing({ value: "0", unit: "g" })).toBe(true);
    expect(isNothing({ value: "0.001", unit: "g" })).toBe(false);
  });
  it("shows money by its currency's own minor units", () => {
    expect(money({ minor: 3780, currency: "GBP" })).toBe("37.80 GBP");
    expect(money({ minor: 5, currency: "EUR" }, ",")).toBe("0,05 EUR");
    expect(money({ minor: 1200, currency: "JPY" })).toBe("1200 JPY");
  });
});

describe("time in the house's zone", () => {
  const now = "2027-03-12T07:00:00Z";
  it("has the house's day and clock, not the phone's", () => {
    expect(dayOf("2027-03-12T23:30:00Z", "Pacific/Auckland")).toBe("2027-03-13");
    expect(clock("2027-07-01T12:00:00Z", "Europe/London")).toBe("13:00");
  });
  it("says days as people do", () => {
    expect(near("2027-03-12", "2027-03-12")).toBe("today");
    expect(near("2027-03-13", "2027-03-12")).toBe("tomorrow");
    expect(near("2027-03-15", "2027-03-12")).toBe("Monday");
    expect(near("2027-03-26", "2027-03-12")).toBe("Fri 26 Mar");
    expect(near("2028-01-03", "2027-03-12")).toBe("Mon 3 Jan 2028");
    expect(moment("2027-03-12T16:50:00Z", "Europe/London", now)).toBe("today 16:50");
  });
  it("says how long, both ways", () => {
    const at = Date.parse(now);
    expect(until("2027-03-12T07:40:00Z", at)).toBe("in 40 min");
    expect(until("2027-03-12T12:00:00Z", at)).toBe("in 5 h");
    expect(until("2027-03-12T05:00:00Z", at)).toBe("2 h ago");
    expect(until("2027-03-15T07:00:00Z", at)).toBe("in 3 days");
    expect(span("PT72H")).toBe("72 h");
    expect(span("P1DT30M")).toBe("1 day 30 min");
    expect(inDays("PT73H30M")).toBe("3 days 1 h 30 min");
    expect(inDays("PT96H")).toBe("4 days");
    expect(inDays("PT20H")).toBe("20 h");
  });
  it("says a service by its day, meal and table", () => {
    expect(inWords("2027-03-12/dinner/guests-staff is confirmed.")).toBe(
      "Fri 12 Mar dinner, guests staff is confirmed.",
    );
  });
});

describe("a sum as somebody writes it", () => {
  it.each([
    ["4.10", "GBP", 410],
    ["4,1", "EUR", 410],
    ["12", "GBP", 1200],
    [" 0.05 ", "GBP", 5],
    // ISO 4217: the yen has no minor unit, the dinar of Bahrain three places
    ["450", "JPY", 450],
    ["1.250", "BHD", 1250],
  ])("%s in %s is %i minor units", (written, currency, minor) => {
    expect(minorUnits(written, currency)).toBe(minor);
  });
  it.each(["", "4.105", "-4", "1.000,50", "four", "450 GBP"])("'%s' is none", (written) => {
    expect(minorUnits(written, "GBP")).toBeNull();
  });
});
