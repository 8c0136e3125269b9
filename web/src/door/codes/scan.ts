import type { CodeRow } from "../rows";

/** What one scan says; null where it says nothing: as the house answers it. */
export type Scan = CodeRow["read"];

/** A scan that says nothing yet. */
export function silent(symbology: string | null): Scan {
  return {
    gtin: null,
    lot: null,
    date_mark: null,
    quantity: null,
    count: null,
    serial: null,
    variant: null,
    sscc: null,
    content_gtin: null,
    harvested: null,
    price: null,
    symbology,
    warnings: [],
    time: null,
    price_decimals: null,
    best_before: null,
    sell_by: null,
    produced: null,
    packed: null,
    frozen: null,
    label: null,
    store_number: null,
    elements: [],
    unread: [],
  };
}

/** The same scan with these warnings too, each once. */
export function warned(scan: Scan, codes: string[]): Scan {
  return { ...scan, warnings: [...new Set([...scan.warnings, ...codes])] };
}
