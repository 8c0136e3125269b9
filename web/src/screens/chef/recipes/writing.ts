import type { BodyOf } from "../../../door/command";
import type { Fault, Problem } from "../../../door/problem";
import type { RecipeRow } from "../../../door/rows";
import type { Wire } from "../../../door/wire";
import { span } from "../../../words/time";

type Body = BodyOf<"write_recipe">;
export type Read = Wire["ReadIngredient"];
export type Document = Wire["ReadRecipe"];
export type UnitSystem = RecipeRow["unit_system"];

/** One line of a recipe while it is written; `read` where it came from a document. */
export interface DraftLine {
  key: number;
  ingredient: string;
  amount: string;
  trimmed: boolean;
  trimmingYield: string;
  fixed: boolean;
  read: Read | null;
  /** Whether a person has decided what the line means; of their own lines they have. */
  decided: boolean;
}

export interface DraftChange {
  key: number;
  variant: string;
  change: "replace" | "leave_out" | "add";
  ingredient: string;
  instead: string;
  amount: string;
}

/** An item that the house does not have yet. */
export interface DraftItem {
  item: string;
  unit: "g" | "ml" | "each";
  counted: boolean;
  contains: string;
}

/** A recipe before it is written. */
export interface Draft {
  recipe: string;
  kind: Body["kind"] & string;
  yields: string;
  dates: Body["dates"] & string;
  lifeDays: string;
  lead: string;
  fullRecipes: boolean;
  area: string;
  seasonFrom: string;
  seasonTo: string;
  unitSystem: UnitSystem;
  method: string;
  picture: string | null;
  lines: DraftLine[];
  variants: DraftChange[];
  items: DraftItem[];
}

let keys = 0;

/** A key that no other line of a draft has. */
export function newKey(): number {
  keys += 1;
  return keys;
}

export function emptyLine(): DraftLine {
  return {
    ...{ key: newKey(), ingredient: "", amount: "", trimmed: false, trimmingYield: "" },
    ...{ fixed: false, read: null, decided: true },
  };
}

export function emptyChange(): DraftChange {
  return {
    ...{ key: newKey(), variant: "", change: "leave_out", ingredient: "", instead: "", amount: "" },
  };
}

export function empty(unitSystem: UnitSystem): Draft {
  return {
    ...{ recipe: "", kind: "dish", yields: "", dates: "cooked", lifeDays: "", lead: "" },
    ...{ fullRecipes: false, area: "", seasonFrom: "", seasonTo: "", unitSystem, method: "" },
    ...{ picture: null, lines: [emptyLine()], variants: [], items: [] },
  };
}

/** A recipe as it stands, to be written anew. */
export function again(row: RecipeRow): Draft {
  return {
    recipe: row.recipe,
    kind: row.kind,
    yields: row.unit ? `${row.yields} ${row.unit}` : row.yields,
    dates: row.dates,
    lifeDays: row.life_days === null ? "" : String(row.life_days),
    lead: row.lead === "PT0S" ? "" : span(row.lead),
    fullRecipes: row.full_recipes,
    area: row.area ?? "",
    seasonFrom: row.season_from ?? "",
    seasonTo: row.season_to ?? "",
    unitSystem: row.unit_system,
    method: row.method,
    picture: row.picture,
    lines: row.lines.map((line) => ({
      ...emptyLine(),
      ingredient: line.item,
      amount: line.amount,
      trimmed: line.trimming_yield !== "1",
      trimmingYield: line.trimming_yield === "1" ? "" : share(line.trimming_yield),
      fixed: line.fixed,
    })),
    variants: row.variants.map((change) => ({
      ...{ key: newKey(), variant: change.variant, change: change.change },
      ...{ ingredient: change.ingredient, instead: change.instead ?? "" },
      amount: change.amount ?? "",
    })),
    items: [],
  };
}

/** A recipe of a document as it was read; what is not sure waits for a person, whatever stands in its fields. */
export function brought(found: Document): Draft {
  return {
    ...empty(found.unit_system),
    recipe: found.name,
    yields: found.yields === null ? "" : String(found.yields),
    lead: found.lead ? span(found.lead) : "",
    method: found.method,
    lines: found.lines.map((read) => ({
      ...emptyLine(),
      ingredient: read.item ?? "",
      amount: read.amount,
      read,
      decided: read.sureness === "sure",
    })),
  };
}

/** A share as people write it: `44 %`, or the fraction where no whole per cent says it. */
export function share(exact: string): string {
  const [above = "1", below = "1"] = exact.split("/");
  const [over, under] = [BigInt(above) * 1000n, BigInt(below)];
  if (over % under !== 0n) return exact;
  const tenths = String(over / under).padStart(2, "0");
  const [whole, part] = [tenths.slice(0, -1), tenths.slice(-1)];
  return part === "0" ? `${whole} %` : `${whole}.${part} %`;
}

/** The lines that a person still has to decide, in their order. */
export function undecided(draft: Draft): DraftLine[] {
  return draft.lines.filter((line) => !line.decided);
}

/** Whether it can be written: nothing waits for a person, and there is something to write. */
export function isReady(draft: Draft): boolean {
  return (
    draft.recipe.trim() !== "" &&
    draft.yields.trim() !== "" &&
    filled(draft).length > 0 &&
    undecided(draft).length === 0
  );
}

/** The lines that say anything; the faults of the house count these. */
export function filled(draft: Draft): DraftLine[] {
  return draft.lines.filter((line) => line.ingredient.trim() !== "" || line.amount.trim() !== "");
}

function maybe<Key extends string>(key: Key, text: string): { [key in Key]?: string } {
  const said = text.trim();
  return said ? ({ [key]: said } as { [key in Key]: string }) : {};
}

/** The body of the command. A line that nobody has decided is never in it: it cannot be written then. */
export function bodyOf(draft: Draft): Body {
  if (undecided(draft).length > 0) throw new Error("a line waits for a person");
  const names = new Set(filled(draft).map(({ ingredient }) => ingredient.trim()));
  for (const { instead, ingredient } of draft.variants)
    names.add(instead.trim() || ingredient.trim());
  return {
    recipe: draft.recipe.trim(),
    kind: draft.kind,
    yields: draft.yields.trim(),
    dates: draft.dates,
    lead: draft.lead.trim(),
    full_recipes: draft.fullRecipes,
    unit_system: draft.unitSystem,
    method: draft.method.trim(),
    ...(draft.lifeDays.trim() ? { life_days: Number(draft.lifeDays) } : {}),
    ...maybe("area", draft.area),
    ...maybe("season_from", draft.seasonFrom),
    ...maybe("season_to", draft.seasonTo),
    ...(draft.picture ? { picture: draft.picture } : {}),
    ingredients: filled(draft).map((line) => ({
      ingredient: line.ingredient.trim(),
      amount: line.amount.trim(),
      trimmed: line.trimmed,
      ...(line.trimmed ? maybe("trimming_yield", line.trimmingYield) : {}),
      scaling: line.fixed ? "fixed" : "per_portion",
    })),
    variants: draft.variants
      .filter(({ variant }) => variant.trim() !== "")
      .map((change) => ({
        variant: change.variant.trim(),
        change: change.change,
        ingredient: change.ingredient.trim(),
        ...(change.change === "replace" ? maybe("instead", change.instead) : {}),
        ...(change.change === "leave_out" ? {} : maybe("amount", change.amount)),
      })),
    items: draft.items
      .filter(({ item }) => names.has(item))
      .map(({ item, unit, counted, contains }) => ({
        ...{ item, base_unit: unit, counted },
        ...maybe("contains", contains),
      })),
  };
}

/** What is wrong with a row of a sheet: of the recipe itself, of its lines, its variants or its new items. */
export function faultsOf(problem: Problem | null, file: string, row: number): Fault[] {
  return (problem?.faults ?? []).filter((fault) => fault.file === file && fault.row === row);
}

/** What is wrong with a column of the recipe itself, in a sentence. */
export function wrongIn(problem: Problem | null, column: string): string | undefined {
  const fault = faultsOf(problem, "recipes", 1).find((each) => each.column === column);
  return fault && `${fault.problem} ${fault.todo}`;
}

/** Why a line waits, in the words of a kitchen. */
export const DOUBTS: Record<Read["doubts"][number], string> = {
  item_not_named: "It does not name one of our items exactly.",
  no_amount: "It does not say how much.",
  not_measurable: "What that amounts to of this item is not known.",
  size_of_unit: "Whose cups, pints or spoons these are is not said.",
  brackets: "What stands in brackets may be another amount.",
  note: "What stands beside it may change what is meant.",
  too_long: "It is too long for a line of a recipe.",
};
