import { expect, it } from "vitest";
import { type Build, shown, toHave, wanted } from "../src/worker/choosing";

const one: Build = {
  name: "one",
  files: { "/index.html": "a", "/mark.svg": "m", "/assets/x-1.js": "x" },
};
const two: Build = {
  name: "two",
  files: { "/index.html": "b", "/mark.svg": "m", "/assets/y-2.js": "y" },
};

it.each([
  ["/", true, "page"],
  ["/goods-in/tolsaig/2027-03-10", true, "page"],
  ["/index.html", true, null],
  ["/openapi.json", true, null],
  ["/api/reports/stock", true, null],
  ["/menu-sheet/what-only-the-link-has", true, null],
  ["/my-sheet/018f", true, null],
  ["/api/reports/stock", false, null],
  ["/assets/x-1.js", false, "file"],
  ["/assets/of-another-build-9.js", false, "file"],
  ["/mark.svg", false, "file"],
  ["/sw.js", false, null],
  ["/goods-in", false, null],
] as const)("what is asked for at %s (a page: %s) is %s", (path, isNavigation, what) => {
  expect(wanted(path, isNavigation, one)).toBe(what);
});

it("shows the build that was taken once it is whole, else the worker's own", () => {
  expect(shown("one", null, ["one", "two"])).toBe("one");
  expect(shown("one", "two", ["one", "two"])).toBe("two");
  expect(shown("one", "two", ["one"])).toBe("one");
});

it("takes what is the same from another build and asks for the rest", () => {
  expect(toHave(two, new Set(), [one])).toEqual([
    { path: "/index.html", hash: "b", from: null },
    { path: "/mark.svg", hash: "m", from: "one" },
    { path: "/assets/y-2.js", hash: "y", from: null },
  ]);
});

it("goes on after a break where it was", () => {
  const present = new Set(["/index.html", "/mark.svg"]);
  expect(toHave(two, present, [one]).map(({ path }) => path)).toEqual(["/assets/y-2.js"]);
});
