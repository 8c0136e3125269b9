import { moment, until } from "../words/time";
import { Ticks } from "./ticks";

const SHOWN = 72;
const WIDE = 216;
const HIGH = 14;
const HOUR = 3_600_000;

interface TimeLeftProps {
  at: string;
  now: number;
  zone: string;
  /** What has to happen by then, as the word before the time: `order by`, `choose by`. */
  what: string;
}

/** How long is left to a deadline, drawn: three days at most, a tick for each day, and the hour in words. */
export function TimeLeft({ at, now, zone, what }: TimeLeftProps) {
  const hours = (Date.parse(at) - now) / HOUR;
  const length = Math.max(0, Math.min(hours, SHOWN));
  return (
    <span class="stack tight">
      <span>
        {what} <strong class="nowrap">{moment(at, zone, now)}</strong>{" "}
        <span class="soft nowrap">{until(at, now)}</span>
      </span>
      <svg
        class="left-bar"
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        <Ticks parts={SHOWN / 24} wide={WIDE} from={HIGH - 5} to={HIGH} />
        {hours <= 0 ? (
          <rect class="none" x="0" y="0" width="4" height={HIGH - 4} />
        ) : (
          <rect
            class={hours <= 24 ? "soon" : "rest"}
            x="0"
            y="1"
            width={Math.max(2, (length * WIDE) / SHOWN)}
            height={HIGH - 7}
          />
        )}
      </svg>
    </span>
  );
}
