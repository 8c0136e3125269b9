import type { PresenceRow } from "../../../door/rows";

/** What one part of a number says: `4 as usual`, `2 more: Ann and Tom here`. */
export function partSaid({ what, heads, who }: PresenceRow["made_of"][number]): string {
  if (what === "usual") return `${heads} as usual`;
  if (what === "rota") return `${heads} by the rota`;
  return what === "stay" ? `${heads} more: ${who} here` : `${-heads} fewer: ${who} elsewhere`;
}
