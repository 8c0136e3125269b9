import { now } from "../../door/clock";
import { DAYS_AHEAD } from "../../door/needed";
import { useReport } from "../../door/reports";
import type { DayMark } from "../../door/rows";
import { mayRead } from "../../door/session";
import { DayLine } from "../../parts/day_line";
import { DayWords } from "../../parts/day_words";
import { Place } from "../../parts/frame";
import { Mark, type What } from "../../parts/marks";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { dayName, dayOf, near } from "../../words/time";
import { daysOf, pastOf } from "./days_ahead";

const LEGEND: [What, string][] = [
  ["service", "a meal"],
  ["delivery", "a delivery"],
  ["pull", "out of the freezer"],
  ["make", "to be made"],
  ["cut_off", "order by"],
  ["choose_by", "choose by"],
  ["dies", "ends with this day"],
];

/** The next days on one line: what is eaten, what comes, what is due and what ends. */
export function Days() {
  const report = useReport<DayMark>("days", { days: String(DAYS_AHEAD) });
  return (
    <Place title="The next days" under="What is eaten, what comes, what is due and what ends">
      <Shown report={report} what="Looking at the next days">
        {(marks, zone) => (
          <>
            <ul class="row small marks-told" aria-label="The marks">
              {LEGEND.map(([what, said]) => (
                <li key={what} class="row nowrap">
                  <Mark what={what} />
                  {said}
                </li>
              ))}
            </ul>
            {marks.length === 0 && <Nothing>Nothing is planned, expected or about to end.</Nothing>}
            <Line days={daysOf(marks, zone)} zone={zone} />
            <div class="days">
              {daysOf(marks, zone).map(([day, of]) => (
                <Day key={day} day={day} marks={of} zone={zone} />
              ))}
            </div>
          </>
        )}
      </Shown>
    </Place>
  );
}

/** All the days as one line, where there is room for it; each day has its own part of it besides. */
function Line({ days, zone }: { days: [string, DayMark[]][]; zone: string }) {
  return (
    <div class="one-line" aria-hidden="true">
      {days.map(([day, marks]) => (
        <div key={day}>
          <strong>{dayName(day)}</strong>
          <DayLine marks={marks} zone={zone} past={pastOf(day, zone)} />
        </div>
      ))}
    </div>
  );
}

function Day({ day, marks, zone }: { day: string; marks: DayMark[]; zone: string }) {
  const today = dayOf(new Date(now.value), zone);
  const said = near(day, today);
  return (
    <section class="day" aria-label={dayName(day, true)}>
      <h2>
        {dayName(day)} {said !== dayName(day) && day === today && <span class="soft">{said}</span>}
      </h2>
      <DayLine marks={marks} zone={zone} past={pastOf(day, zone)} />
      <DayWords marks={marks} zone={zone} now={now.value} linked={mayRead("menus")} />
    </section>
  );
}
