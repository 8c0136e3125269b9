import type { Report } from "./reports";
import { ask } from "./request";
import type { CodeRow } from "./rows";

/** What a scanned, pasted or typed code says, and what in the house carries it. */
export async function readCode(text: string): Promise<CodeRow | null> {
  const query = new URLSearchParams({ text });
  const report = await ask<Report<CodeRow>>(`/api/reports/code?${query}`);
  return report.rows[0] ?? null;
}
