import { isOn } from "../../../door/codes/is_on";
import { asPrinted } from "../../../door/codes/label_numbers";
import type { Problem } from "../../../door/problem";
import type { HouseRow, StockRow } from "../../../door/rows";

/** What is known on this device of the house's numbered labels. */
export interface KnownNumbers {
  stock: StockRow[];
  /** What was reserved to be printed; a copy kept by an earlier build does not say. */
  printed: HouseRow["numbers_printed"] | undefined;
}

export const NEVER_PRINTED = "label_never_printed";

/**
 * What stands against putting a numbered label on a batch, which has no id before it is recorded. That a number was
 * never printed is only a doubt: this device may have heard from the house before it was.
 */
export function standsAgainst(
  label: string,
  batch: string | null,
  { stock, printed }: KnownNumbers,
): Problem | null {
  const holder = stock.find((row) => isOn(row, label));
  if (holder && holder.batch === batch) {
    return said("label_on_it", `${label} is on this batch already.`, "Nothing to do.");
  }
  if (holder) {
    return said(
      "label_taken",
      `${label} is on ${holder.item}, ${holder.label}, of which there is some left.`,
      "Take a fresh label, or record first what became of the rest.",
    );
  }
  const number = Number(label.split("-")[0]);
  if (printed?.every(({ first, last }) => number < first || number > last)) {
    return said(
      NEVER_PRINTED,
      `${label} was never printed, as far as this device knows.`,
      "Read the number again. If the label in your hand says so, scan it once more: it is put on then.",
    );
  }
  return null;
}

/** What was scanned as a number is none, or a figure of it is wrong. */
export function misread(scanned: string | null): Problem {
  return said(
    "label_misread",
    `${scanned ?? "That"} is no numbered label, or a figure of it is wrong.`,
    "Scan it, or read the number again.",
  );
}

/** A numbered label on which nothing is yet, where a batch was looked for; null for anything else. */
export function batchFirst(scanned: string | null): Problem | null {
  if (!asPrinted(scanned ?? "")) return null;
  return said(
    "batch_first",
    `${scanned} is a numbered label on no batch yet.`,
    "Scan or choose the batch first, then this number.",
  );
}

/** A problem of this device's own, before the house has heard of it. */
export function said(code: string, detail: string, todo: string): Problem {
  return { type: "about:blank", title: code, status: 422, detail, code, todo };
}
