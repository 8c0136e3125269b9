import { signal } from "@preact/signals";
import { nextFree, type Paper } from "./paper";

const KEY = "label paper";

interface Used {
  paper: string;
  own: string;
  /** The first free label of each begun sheet, by its measures. */
  free: Record<string, number>;
}

const FRESH: Used = { paper: "a4/3x8/70x37", own: "", free: {} };

/** What this device printed on last, and where its begun sheets go on. */
export const used = signal<Used>({
  ...FRESH,
  ...(JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Used>),
});

function keep(now: Used): void {
  used.value = now;
  localStorage.setItem(KEY, JSON.stringify(now));
}

export function chosePaper(paper: string, own: string): void {
  keep({ ...used.value, paper, own });
}

/** The first free label of a begun sheet, counted from 1. */
export function firstFree({ measures, onPage }: Paper): number {
  return Math.min(used.value.free[measures] ?? 1, onPage);
}

/** So many labels were printed from a place of the sheet on: the rest of it is used next time. */
export function printedOn(paper: Paper, start: number, count: number): void {
  const next = nextFree(paper, start, count);
  keep({ ...used.value, free: { ...used.value.free, [paper.measures]: next } });
}
