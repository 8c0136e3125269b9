import type { CountLine } from "../../../door/rows";
import { me } from "../../../door/session";
import { amount } from "../../../words/amounts";
import { packDate } from "../../../words/pack_date";
import type { Entry, Line } from "./sheet";

/** Why a line is due, in words. */
export const WHY: Record<NonNullable<CountLine["why"]>, string> = {
  again: "count it again",
  below_nothing: "the books say less than nothing",
  nothing_left: "the books say none is left",
  weekly: "due: weekly",
  monthly: "due: monthly",
  season: "due: turn of the season",
};

const KIND = { use_by: "use by", best_before: "best before", none: "no date" };

/** A line's name: of a batch with its date, so that it is told from the others. */
export function nameOf(line: Line): string {
  return line.label === null ? line.item.item : `${line.item.item}, ${line.label}`;
}

/** What tells a batch from the others of its item. */
export function batchWords({ batch }: Line): string {
  if (!batch) return "";
  const { kind, date } = batch.date_mark;
  const state = batch.state === "sealed" ? "" : batch.state.replace("_", " ");
  return [`${KIND[kind]} ${date ? packDate(date) : ""}`.trim(), state].filter(Boolean).join(", ");
}

/** So much of a line. */
export function much(value: string, { item }: Line): string {
  const said = amount({ value, unit: item.unit }, me.value?.house.decimal_mark);
  return item.unit === "each" ? `${said} ${said === "1" ? "piece" : "pieces"}` : said;
}

/** What was written down of a line. */
export function entryWords(entry: Entry, line: Line): string {
  if (/^0*(\.0*)?$/.test(entry.found)) return "not here";
  return much(entry.found, line) + (entry.pieces ? `, ${entry.pieces} pieces` : "");
}
