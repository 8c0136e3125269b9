import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Command } from "../src/door/command";
import { notIn } from "../src/door/outbox/laying";
import { expectedShown } from "../src/door/outbox/shown";
import type { ExpectedRow } from "../src/door/rows";
import { entries } from "./answered_entries";

/** The real house is told the same stories in `tests/commands/test_shown_once.py`. */
interface Story {
  name: string;
  had: Command[];
  fresh: Command[];
  before: ExpectedRow[];
  after: ExpectedRow[];
}

const file = new URL("../../tests/vectors/shown_once.json", import.meta.url);
const stories = JSON.parse(readFileSync(file, "utf-8")) as Story[];

function shown({ had, fresh, before }: Story, positions: (number | null)[], at: number) {
  const all = entries([...had, ...fresh], positions);
  return expectedShown(before, notIn(all, at), all);
}

for (const story of stories) {
  const { name, had, fresh, before, after } = story;
  const places = had.map((_, at) => at + 1);

  test(`SY4: ${name}, while it waits`, () => {
    expect(shown(story, [...places, ...fresh.map(() => null)], had.length)).toEqual(after);
  });

  test(`SY4: ${name}, answered after the rows were told`, () => {
    const later = fresh.map((_, at) => had.length + at + 1);
    expect(shown(story, [...places, ...later], had.length)).toEqual(after);
  });

  test(`SY4: ${name}, told by the house itself`, () => {
    const later = fresh.map((_, at) => had.length + at + 1);
    const all = entries([...had, ...fresh], [...places, ...later]);
    expect(notIn(all, had.length + fresh.length)).toEqual([]);
    expect(expectedShown(before, [], all)).toEqual(before);
  });
}

test("SY4: what the house refused or kept without effect is not shown as done", () => {
  const [first] = stories;
  const all = entries(first?.fresh ?? [], [1]).map((entry) => ({
    ...entry,
    answered: entry.answered && {
      ...entry.answered,
      answer: { ...entry.answered.answer, outcome: "kept" as const },
    },
  }));
  expect(notIn(all, 0)).toEqual([]);
});
