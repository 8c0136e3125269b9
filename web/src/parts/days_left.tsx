import { now } from "../door/clock";
import { dayOf, daysBetween, near } from "../words/time";
import { Ticks } from "./ticks";

const SHOWN = 10;
const WIDE = 200;
const HIGH = 16;

/** `at_its_best` where no mark is on it, and it is only flagged from then on. */
export type DaysLeftKind = "use_by" | "best_before" | "at_its_best" | "none";

interface DaysLeftProps {
  /** The last moment it may be used, or from which it is only flagged; null: no date. */
  until: string | null;
  kind: DaysLeftKind;
  zone: string;
}

/**
 * How long something has left, drawn: a length of ten days at most, a tick for each, and the date in words.
 * Full for *use-by*, outlined for *best-before*, so that the kind is seen without its colour.
 */
export function DaysLeft({ until, kind, zone }: DaysLeftProps) {
  if (until === null) return <span class="soft small">no date</span>;
  const today = dayOf(new Date(now.value), zone);
  const last = dayOf(until, zone);
  const days = daysBetween(today, last) + 1;
  const gone = Date.parse(until) < now.value;
  const length = gone ? 0 : Math.max(0, Math.min(days, SHOWN));
  const form =
    kind === "best_before" || kind === "at_its_best" ? "quality" : days <= 2 ? "soon" : "rest";
  return (
    <span class="stack tight">
      <svg
        class="left-bar"
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        <Ticks parts={SHOWN} wide={WIDE} from={HIGH - 4} to={HIGH} />
        {gone ? (
          <rect class="none" x="0" y="0" width="4" height={HIGH - 5} />
        ) : (
          <rect
            class={form}
            x="1"
            y="1"
            width={Math.max(3, (length * WIDE) / SHOWN - 2)}
            height={HIGH - 7}
          />
        )}
      </svg>
      <span class="small">
        {word(kind)} {gone && kind !== "at_its_best" ? "was " : ""}
        <span class="nowrap">{near(last, today)}</span>
        {!gone && days > 0 && days <= SHOWN && <span class="soft"> · {daysWord(days)}</span>}
      </span>
    </span>
  );
}

function word(kind: DaysLeftKind): string {
  if (kind === "use_by") return "use by";
  if (kind === "best_before") return "best before";
  if (kind === "at_its_best") return "at its best until";
  return "use until";
}

function daysWord(days: number): string {
  return days === 1 ? "last day" : `${days} days with today`;
}
