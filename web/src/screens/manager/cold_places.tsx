import "../../look/manager.css";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ColdPlaceRow } from "../../door/rows";
import { Place } from "../../parts/frame";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { doneWords, limitsInWords, WARMTH_MARK, warmthInWords } from "../../words/cold";
import { shownDegrees, tenths } from "../../words/temperature";
import { dayName, moment } from "../../words/time";

const DAYS = 14;

/** How the cold places did in the last two weeks: the line, what was past it, and the rounds that are missing. */
export function ColdPlaces() {
  const report = useReport<ColdPlaceRow>("temperatures", { days: String(DAYS) });
  return (
    <Place title="Cold places" under={`The last ${DAYS} days`}>
      <Shown report={report} what="Looking at the cold places">
        {(rows, zone) => (
          <div class="stack narrow">
            {rows.length === 0 && <Nothing>This house has no chilled or frozen place.</Nothing>}
            {rows.map((row) => (
              <One key={row.area_id} row={row} zone={zone} />
            ))}
            {rows[0] && <p class="soft small">{rows[0].caution}</p>}
          </div>
        )}
      </Shown>
    </Place>
  );
}

function One({ row, zone }: { row: ColdPlaceRow; zone: string }) {
  const breaches = row.readings.filter(({ warmth }) => warmth !== "within");
  const missing = row.rounds.filter(({ taken, end }) => !taken && Date.parse(end) <= now.value);
  return (
    <article class="card stack" aria-label={row.area}>
      <div class="row ends base">
        <h2>{row.area}</h2>
        <span class="figure">
          {row.last ? shownDegrees(row.last.temperature_c, "C") : "not read yet"}
        </span>
      </div>
      <Picture row={row} />
      <p>
        {limitsInWords(row)}; {row.readings.length} readings, {breaches.length} of them not right,{" "}
        {missing.length} rounds missing.
      </p>
      {breaches.length > 0 && (
        <ul class="soft" aria-label="Not right">
          {breaches.map((each) => (
            <li key={each.command}>
              <span aria-hidden="true">{WARMTH_MARK[each.warmth]} </span>
              {shownDegrees(each.temperature_c, "C")}, {warmthInWords(each.warmth)},{" "}
              {moment(each.at, zone, now.value)}, {each.person}
              {each.done ? `: ${doneWords(each.done)}` : ": nothing said of what was done"}
            </li>
          ))}
        </ul>
      )}
      {missing.length > 0 && (
        <details>
          <summary>Rounds that are missing</summary>
          <ul class="soft">
            {missing.map(({ day, number, of }) => (
              <li key={`${day} ${number}`}>
                {dayName(day)}, round {number} of {of}
              </li>
            ))}
          </ul>
        </details>
      )}
    </article>
  );
}

const WIDE = 300;
const HIGH = 60;
const EDGE = 6;

/** The readings as a line between the limits; the same stands beside it in words. */
function Picture({ row }: { row: ColdPlaceRow }) {
  const shown = row.readings.flatMap((each) => {
    const at = tenths(each.temperature_c);
    return at === null ? [] : [{ at, when: Date.parse(each.at), warmth: each.warmth }];
  });
  const [first] = row.rounds;
  if (shown.length === 0 || !first) return null;
  const limits = [row.min_c, row.max_c].flatMap((each) => tenths(each ?? "") ?? []);
  const all = [...shown.map(({ at }) => at), ...limits];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const [from, to] = [Math.min(Date.parse(first.start), shown[0]?.when ?? 0), now.value];
  const x = (when: number) => EDGE + ((WIDE - 2 * EDGE) * (when - from)) / Math.max(1, to - from);
  const y = (at: number) =>
    HIGH - EDGE - ((HIGH - 2 * EDGE) * (at - low)) / Math.max(1, high - low);
  return (
    <svg class="temperatures" viewBox={`0 0 ${WIDE} ${HIGH}`} aria-hidden="true">
      {limits.map((at) => (
        <line key={at} class="limit" x1="0" x2={WIDE} y1={y(at)} y2={y(at)} />
      ))}
      <polyline points={shown.map(({ when, at }) => `${x(when)},${y(at)}`).join(" ")} />
      {shown.map(({ when, at, warmth }) =>
        warmth === "within" ? (
          <circle key={when} cx={x(when)} cy={y(at)} r="2.5" />
        ) : (
          <path key={when} d={`M${x(when)} ${y(at) - 5}l5 9h-10z`} />
        ),
      )}
    </svg>
  );
}
