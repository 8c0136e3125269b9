import { signal } from "@preact/signals";
import type { Quantity } from "../../door/quantities";
import type { CodeRow } from "../../door/rows";

/** What the code of the goods in hand said, on its way from the code to the line that it opens. */
export interface InHand {
  read: CodeRow["read"];
  pack_id: string | null;
  /** What the code itself says there is, in the item's own unit. */
  quantity: Quantity | null;
}

export const inHand = signal<InHand | null>(null);

/** What is to be kept of a code for the pack that was chosen of it. */
export function carried(row: CodeRow, pack_id: string | null): InHand {
  const { read, matches } = row;
  const match = matches.find((each) => each.pack_id === pack_id) ?? matches[0];
  const says = read.quantity !== null || read.count !== null;
  return { read, pack_id, quantity: says ? (match?.quantity ?? null) : null };
}
