import "../../look/menus.css";
import type { Outcome } from "./outcomes";

const WIDE = 300;
const HIGH = 20;
const GAP = 3;

const KINDS = ["stock", "coming", "buy", "gone"] as const;

/**
 * What becomes of a menu's items, drawn as one length: full for what stands on the shelf, hatched for what
 * is made or on its way, open for what is to be bought, crossed for what cannot be had.
 */
export function Picture({ outcome }: { outcome: Outcome }) {
  const counts = KINDS.map((kind) => outcome[kind].length);
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (total === 0) return null;
  let from = 0;
  const parts = KINDS.flatMap((kind, place) => {
    const wide = ((counts[place] ?? 0) * WIDE) / total;
    const part = { kind, x: from, wide };
    from += wide;
    return wide > 0 ? [part] : [];
  });
  return (
    <svg
      class="outcome"
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {parts.map(({ kind, x, wide }) => (
        <g key={kind} class={kind}>
          <rect x={x + 1} y="2" width={Math.max(2, wide - GAP)} height={HIGH - 4} />
          {kind === "coming" &&
            strokes(x, wide).map((at) => <line key={at} x1={at} x2={at} y1="3" y2={HIGH - 3} />)}
          {kind === "gone" && (
            <>
              <line x1={x + 1} x2={x + wide - GAP + 1} y1="3" y2={HIGH - 3} />
              <line x1={x + 1} x2={x + wide - GAP + 1} y1={HIGH - 3} y2="3" />
            </>
          )}
        </g>
      ))}
    </svg>
  );
}

function strokes(x: number, wide: number): number[] {
  const count = Math.floor((wide - GAP) / 6);
  return Array.from({ length: Math.max(0, count) }, (_, at) => x + 5 + at * 6);
}
