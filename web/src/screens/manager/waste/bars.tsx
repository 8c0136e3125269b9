import { me } from "../../../door/session";
import { money } from "../../../words/amounts";
import { dayName } from "../../../words/time";
import { CLASSES, type Class, perCover, type Week } from "./lost";
import { weightWords } from "./sums";

/** How long the longest bar is, in the units of the drawing. */
const LONGEST = 1000;

/** A bar for each week: what was avoidable is filled, what was not is striped, the rest is only outlined. */
export function Bars({ weeks }: { weeks: Week[] }) {
  const most = Math.max(1, ...weeks.map(({ all }) => all.minor));
  return (
    <section class="stack tight" aria-label="Week by week">
      <h2>Week by week</h2>
      <svg class="unseen" aria-hidden="true" focusable="false">
        <defs>
          <pattern id="stripes" width="12" height="12" patternUnits="userSpaceOnUse">
            <path d="M0 12 12 0" class="stripe" />
          </pattern>
        </defs>
      </svg>
      <p class="row small">
        {CLASSES.map((name) => (
          <span key={name} class="row">
            <svg class="lost-key" viewBox="0 0 40 24" aria-hidden="true" focusable="false">
              <rect class={partOf(name)} width="40" height="24" />
            </svg>
            {name}
          </span>
        ))}
      </p>
      <ul class="lines">
        {weeks.map((week) => (
          <OneWeek key={week.monday} week={week} most={most} />
        ))}
      </ul>
    </section>
  );
}

function partOf(name: Class): string {
  return `lost-${name.replace(" ", "-")}`;
}

function OneWeek({ week, most }: { week: Week; most: number }) {
  const currency = me.value?.house.currency ?? "";
  const mark = me.value?.house.decimal_mark ?? ".";
  const sum = (minor: number) => money({ minor, currency }, mark);
  const each = perCover(week.all.minor, week.covers);
  const named = CLASSES.filter((name) => week.classes[name] > 0);
  let from = 0;
  return (
    <li class="stack tight">
      <span class="row ends base">
        <span>Week of {dayName(week.monday)}</span>
        <strong class="figure">{sum(week.all.minor)}</strong>
      </span>
      <svg
        class="lost-bar"
        viewBox={`0 0 ${LONGEST} 24`}
        preserveAspectRatio="none"
        aria-hidden="true"
        focusable="false"
      >
        {named.map((name) => {
          const width = (week.classes[name] * LONGEST) / most;
          from += width;
          return (
            <rect key={name} class={partOf(name)} x={from - width} width={width} height="24" />
          );
        })}
      </svg>
      <span class="soft small">
        {named.map((name) => `${sum(week.classes[name])} ${name}`).join(", ")};{" "}
        {weightWords(week.all, mark)}; {each === null ? "no cover served" : `${sum(each)} a cover`}
      </span>
    </li>
  );
}
