interface TicksProps {
  /** How many parts the scale has; a tick stands at both ends, too. */
  parts: number;
  wide: number;
  /** Where the ticks begin and end, from the top. */
  from: number;
  to: number;
}

/** The ticks of a scale of equal parts, the outer two kept whole within it. */
export function Ticks({ parts, wide, from, to }: TicksProps) {
  return Array.from({ length: parts + 1 }, (_, part) => {
    const x = Math.min(wide - 0.5, Math.max(0.5, (part * wide) / parts));
    return <line key={part} class="tick" x1={x} x2={x} y1={from} y2={to} />;
  });
}
