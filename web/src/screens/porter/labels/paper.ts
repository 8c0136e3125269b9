/** Label paper: its measures as the house reads them, in words, and how many labels a page has. */
export interface Paper {
  measures: string;
  words: string;
  onPage: number;
}

function sheet(measures: string, columns: number, rows: number): Paper {
  const [page = "", , label = ""] = measures.split("/");
  const size = `${label.replace("x", " × ")} mm`;
  const words = `${page === "a4" ? "A4" : "Letter"} sheet, ${columns} × ${rows} of ${size}`;
  return { measures, words, onPage: columns * rows };
}

function roll(measures: string): Paper {
  return { measures, words: `Roll, ${measures.replace("x", " × ")} mm`, onPage: 1 };
}

/** Common label paper, named by its measures alone. */
export const PAPERS: readonly Paper[] = [
  sheet("a4/3x8/70x37", 3, 8),
  sheet("a4/3x7/63.5x38.1", 3, 7),
  sheet("a4/2x7/99.1x38.1", 2, 7),
  sheet("a4/4x10/48.5x25.4", 4, 10),
  sheet("a4/2x8/105x37", 2, 8),
  sheet("a4/2x4/105x74", 2, 4),
  sheet("letter/3x10/66.7x25.4", 3, 10),
  roll("62x29"),
  roll("57x32"),
  roll("50x25"),
  roll("70x50"),
];

/** Where a person gives measures of their own. */
export const OWN = "own";

const OWN_MEASURES =
  /^(?:(?:a4|letter)\/([0-9]{1,2})x([0-9]{1,2})\/)?[0-9.]+x[0-9.]+(?:\/[0-9.]+x[0-9.]+){0,2}$/;

/** The paper that a person measured; null where that is no measure. The house says whether it fits. */
export function ownPaper(written: string): Paper | null {
  const measures = written.trim().toLowerCase();
  const found = OWN_MEASURES.exec(measures);
  if (!found) return null;
  return { measures, words: measures, onPage: Number(found[1] ?? 1) * Number(found[2] ?? 1) };
}

/** The first free label of a sheet, once so many were printed from a place of it on. */
export function nextFree({ onPage }: Paper, start: number, count: number): number {
  return ((start - 1 + count) % onPage) + 1;
}

/** The PDF of labels; what is asked for stands in its address. */
export function pdf(paper: Paper, start: number, of: [string, string][]): string {
  const asked = new URLSearchParams([["paper", paper.measures], ["start", String(start)], ...of]);
  return `/api/labels.pdf?${asked}`;
}
