import file from "../../../../pantry/handbook/application_identifiers.json";

/** One component of the data of an identifier; `longest` is also the length where there is no other. */
export interface Part {
  characters: "N" | "X" | "Y" | "Z";
  shortest: number;
  longest: number;
  /** Whether it may be missing, with everything after it. */
  optional: boolean;
  checks: string[];
}

/** What a scan may carry under one number; the house reads the same table. */
export interface Identifier {
  ai: string;
  title: string;
  parts: Part[];
  /** Characters of the data where its end needs no separator; null elsewhere. */
  fixedLength: number | null;
  /** Whether it may stand in the query of a GS1 Digital Link. */
  attribute: boolean;
  /** Alternatives, each a group of identifiers or beginnings of them that must all be there. */
  needs: string[][];
  /** Identifiers or beginnings of them that contradict it. */
  never: string[];
  /** For a key of a GS1 Digital Link, the sequences that may follow it; null for what is no key. */
  qualifiers: string[][] | null;
}

interface Row {
  ai: string;
  title: string;
  data: string;
  fixed: boolean;
  attribute: boolean;
  needs?: string;
  never?: string;
  qualifiers?: string;
}

const PART = /^(\[?)([NXYZ])(\.\.)?([0-9]+)\]?((?:,[a-z0-9]+)*)$/;

function partOf(text: string): Part {
  const [, bracket, characters, upto, length, checks = ""] = PART.exec(text) ?? [];
  const longest = Number(length);
  return {
    characters: characters as Part["characters"],
    shortest: upto ? 1 : longest,
    longest,
    optional: bracket === "[",
    checks: checks.split(",").slice(1),
  };
}

/** `31nn` stands for every identifier that begins with 31. */
function beginning(pattern: string): string {
  return pattern.replace(/n+$/, "");
}

function groups(text: string, between: string, within: string): string[][] {
  return text
    .split(between)
    .filter(Boolean)
    .map((group) => group.split(within).map(beginning));
}

function identifier(ai: string, row: Row): Identifier {
  const parts = row.data.split(" ").map(partOf);
  return {
    ai,
    title: row.title,
    parts,
    fixedLength: row.fixed ? parts.reduce((sum, part) => sum + part.longest, 0) : null,
    attribute: row.attribute,
    needs: groups(row.needs ?? "", ",", "+"),
    never: (row.never ?? "").split(",").filter(Boolean).map(beginning),
    qualifiers: row.qualifiers === undefined ? null : groups(row.qualifiers, "|", ","),
  };
}

function numbersOf({ ai }: Row): string[] {
  const [first = "", last = first] = ai.split("-");
  const count = Number(last) - Number(first) + 1;
  return Array.from({ length: count }, (_, at) =>
    String(Number(first) + at).padStart(first.length, "0"),
  );
}

/** Every identifier by its number; none is the beginning of another. */
export const IDENTIFIERS: ReadonlyMap<string, Identifier> = new Map(
  (file.identifiers as Row[]).flatMap((row) =>
    numbersOf(row).map((ai): [string, Identifier] => [ai, identifier(ai, row)]),
  ),
);

/** One identifier with its data, as it stood in the code. */
export interface Element {
  ai: string;
  value: string;
}

/** The identifier of an element: only those that are known become elements. */
export function known(ai: string): Identifier {
  const found = IDENTIFIERS.get(ai);
  if (!found) throw new RangeError(`(${ai}) is no Application Identifier`);
  return found;
}
