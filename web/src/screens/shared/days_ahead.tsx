import { now } from "../../door/clock";
import { DAYS_AHEAD } from "../../door/needed";
import { useReport } from "../../door/reports";
import type { DayMark } from "../../door/rows";
import { mayRead } from "../../door/session";
import { DayLine, share } from "../../parts/day_line";
import { DayWords } from "../../parts/day_words";
import { Mark, type What } from "../../parts/marks";
import { Opens } from "../../parts/opens";
import { Shown } from "../../parts/shown";
import { dayName, dayOf } from "../../words/time";

const TOLD: [What, string][] = [
  ["cut_off", "order by"],
  ["delivery", "a delivery"],
  ["service", "a meal"],
  ["dies", "ends with this day"],
];

/** The next days as one line: deadlines, deliveries, meals and what ends together; each day opens to its words. */
export function DaysAhead() {
  const report = useReport<DayMark>("days", { days: String(DAYS_AHEAD) });
  return (
    <section class="stack" aria-label="The next days on one line">
      <h2>The next days</h2>
      <Shown report={report} what="Looking at the next days">
        {(marks, zone) => (
          <>
            <ul class="row small" aria-label="The marks">
              {TOLD.map(([what, said]) => (
                <li key={what} class="row nowrap">
                  <Mark what={what} />
                  {said}
                </li>
              ))}
            </ul>
            <div class="days-ahead">
              {daysOf(
                marks.filter(({ what }) => TOLD.some(([told]) => told === what)),
                zone,
              ).map(([day, of]) => (
                <div key={day}>
                  <Opens figure={dayName(day)} title={dayName(day, true)}>
                    <DayWords marks={of} zone={zone} now={now.value} linked={mayRead("menus")} />
                    {of.length === 0 && <p>Nothing is due, expected or about to end.</p>}
                  </Opens>
                  <DayLine marks={of} zone={zone} past={pastOf(day, zone)} />
                </div>
              ))}
            </div>
          </>
        )}
      </Shown>
    </section>
  );
}

/** The part of a day that is over; null where it is not today. */
export function pastOf(day: string, zone: string): number | null {
  const at = new Date(now.value);
  return day === dayOf(at, zone) ? share(at.toISOString(), zone) : null;
}

/** Every day from today on, an empty one included: a day without a delivery is news, too. */
export function daysOf(marks: DayMark[], zone: string): [string, DayMark[]][] {
  const first = new Date(now.value);
  return Array.from({ length: DAYS_AHEAD }, (_, ahead): [string, DayMark[]] => {
    const day = dayOf(new Date(first.getTime() + ahead * 86_400_000), zone);
    return [day, marks.filter((mark) => mark.day === day)];
  });
}
