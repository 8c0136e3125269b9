import { now } from "../../door/clock";
import { Ticks } from "../../parts/ticks";
import { moment, until } from "../../words/time";

const DAYS = 7;
const DAY = 86_400_000;
const WIDE = 210;
const HIGH = 18;

interface ChooseByProps {
  at: string;
  /** The service less the house's notice: when the household usually answers at the latest. */
  notice: string;
  zone: string;
}

/**
 * How long there is to choose, drawn: a week at most, a tick for each day, and a notch where the usual
 * notice ends, so that a length that stops short of the notch is seen to be early.
 */
export function ChooseBy({ at, notice, zone }: ChooseByProps) {
  const early = at < notice;
  const left = share(at, now.value);
  const notch = share(notice, now.value);
  return (
    <span class="stack tight">
      <span>
        choose by <strong class="nowrap">{moment(at, zone, now.value)}</strong>{" "}
        <span class="soft nowrap">{until(at, now.value)}</span>
      </span>
      <svg
        class="left-bar choose"
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        <Ticks parts={DAYS} wide={WIDE} from={HIGH - 4} to={HIGH} />
        <rect
          class={early ? "soon" : "rest"}
          x="0"
          y="3"
          width={Math.max(3, left * WIDE)}
          height={HIGH - 10}
        />
        {notch > 0 && notch < 1 && (
          <line class="notch" x1={notch * WIDE} x2={notch * WIDE} y1="0" y2={HIGH - 4} />
        )}
      </svg>
    </span>
  );
}

function share(at: string, from: number): number {
  return Math.max(0, Math.min(1, (Date.parse(at) - from) / (DAYS * DAY)));
}
