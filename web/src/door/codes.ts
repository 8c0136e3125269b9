import { dayOf, present } from "./clock";
import { nowTold, type Report } from "./reports";
import { ask } from "./request";
import type { CodeRow, ItemRow, StockRow } from "./rows";

const reader = () => import("./codes/look_up");

/** Have everything at hand that reading a code needs, so that the first one is as quick as the next. */
export async function prepareCodes(): Promise<void> {
  await Promise.allSettled([reader(), nowTold<ItemRow>("items"), nowTold<StockRow>("stock")]);
}

/**
 * What a scanned, pasted or typed code says, and what in the house carries it. It is read on this device and
 * looked up in what the house last said of items and stock.
 *
 * Throws `Refused` for what cannot be read, or where the house has not said anything here yet.
 */
export async function readCode(text: string): Promise<CodeRow> {
  const [{ lookUp }, items, stock] = await Promise.all([
    reader(),
    nowTold<ItemRow>("items"),
    nowTold<StockRow>("stock"),
  ]);
  return lookUp(text, {
    items: items.rows,
    stock: stock.rows,
    today: dayOf(present(), items.zone),
  });
}

/**
 * Whether a label was on a batch of which nothing stands any more; only the house knows. False where it cannot be
 * asked.
 */
export async function wasLabel(label: string): Promise<boolean> {
  try {
    const said = await ask<Report<CodeRow>>(
      `/api/reports/code?${new URLSearchParams({ text: label })}`,
    );
    return said.rows.some(({ matches }) => matches.some(({ kind }) => kind === "batch"));
  } catch (error) {
    if (error instanceof TypeError) return false;
    throw error;
  }
}
