/** How far this device's clock is off the house's, and how well that is known (SY8). */

/** What a command says of the clock it was made by, in milliseconds. */
export interface Clock {
  offset_ms: number;
  bound_ms: number;
}

interface Measured extends Clock {
  /** When it was measured, by this device's clock, in milliseconds. */
  at: number;
}

/** The house writes its time to the second. */
const ROUNDED = 500;

/** A clock of quartz drifts by less than this part of the time that passes (common practice, no source). */
const DRIFT = 1e-4;

/** How far an unmeasured clock may be off. */
const UNMEASURED = 60_000;

let best: Measured | null = null;

/** The house's time came between these two instants of this device's clock. */
export function measured(houseTime: string, asked: number, answered: number): void {
  const middle = (asked + answered) / 2;
  const found = {
    offset_ms: Math.round(Date.parse(houseTime) + ROUNDED - middle),
    bound_ms: Math.ceil((answered - asked) / 2) + ROUNDED,
    at: answered,
  };
  if (!best || found.bound_ms <= boundAt(best, answered)) best = found;
}

function boundAt(known: Measured, at: number): number {
  return Math.ceil(known.bound_ms + Math.abs(at - known.at) * DRIFT);
}

/** What stands in a command that is made at this instant; `ahead` is what is reckoned with on the screens. */
export function clockAt(at: number, ahead: number): Clock {
  if (!best) return { offset_ms: Math.round(ahead), bound_ms: UNMEASURED };
  return { offset_ms: best.offset_ms, bound_ms: boundAt(best, at) };
}

/** Know nothing of the clock any more. */
export function unmeasured(): void {
  best = null;
}
