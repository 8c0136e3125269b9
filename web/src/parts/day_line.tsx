import type { DayMark } from "../door/rows";
import { clock } from "../words/time";
import { Form } from "./marks";

const HOURS = 24;
const HIGH = 64;
const LANE: Record<DayMark["what"], number> = {
  delivery: 14,
  pull: 14,
  service: 32,
  make: 32,
  cut_off: 50,
  choose_by: 50,
  dies: 50,
};

interface DayLineProps {
  marks: DayMark[];
  zone: string;
  /** The part of the day that is past, from nothing to one; null where the day is not today. */
  past: number | null;
}

/**
 * One day as a line from midnight to midnight: what comes above it, what is eaten on it, what is due or ends
 * below it. It repeats what the list beneath it says in words, and is hidden from who listens.
 */
export function DayLine({ marks, zone, past }: DayLineProps) {
  return (
    <svg class="day-line" width="100%" height={HIGH} aria-hidden="true">
      {past !== null && <rect class="past" x="0" y="0" width={percent(past)} height={HIGH - 8} />}
      <line class="axis" x1="0" x2="100%" y1="32" y2="32" />
      {[0, 6, 12, 18].map((hour) => (
        <g key={hour}>
          <line
            class="tick"
            x1={percent(hour / HOURS)}
            x2={percent(hour / HOURS)}
            y1="2"
            y2={HIGH - 8}
          />
        </g>
      ))}
      {marks.map((mark) => (
        <svg
          key={`${mark.what}${mark.at}${keyOf(mark)}`}
          x={percent(share(mark.at, zone))}
          y={LANE[mark.what]}
          overflow="visible"
          aria-hidden="true"
        >
          <g class={isProposed(mark) ? "proposed" : ""}>
            <Form what={mark.what} />
          </g>
        </svg>
      ))}
    </svg>
  );
}

/** Where in its day an instant is, kept a little off both ends so that its form is whole. */
export function share(at: string, zone: string): number {
  const [hours = 0, minutes = 0] = clock(at, zone).split(":").map(Number);
  return Math.min(0.975, Math.max(0.025, (hours + minutes / 60) / HOURS));
}

function percent(part: number): string {
  return `${(part * 100).toFixed(2)}%`;
}

function isProposed(mark: DayMark): boolean {
  return mark.what === "service" && mark.state === "proposed";
}

export function keyOf(mark: DayMark): string {
  switch (mark.what) {
    case "service":
    case "choose_by":
      return mark.service;
    case "delivery":
      return mark.order;
    case "cut_off":
      return mark.supplier + mark.delivery;
    case "dies":
      return mark.batch;
    case "pull":
      return mark.batch + mark.service;
    case "make":
      return mark.item + mark.dish + mark.service;
  }
}
