import type { ComponentChildren } from "preact";
import type { DayMark } from "../door/rows";
import { amount, isNothing, listed, many } from "../words/amounts";
import { clock, moment } from "../words/time";
import { Mark } from "./marks";
import { Link } from "./router";

interface DayWordsProps {
  marks: DayMark[];
  zone: string;
  now: number;
  /** Whether services are links: not every role goes there. */
  linked: boolean;
}

const KINDS: [DayMark["what"], string][] = [
  ["delivery", "Comes"],
  ["service", "Meals"],
  ["cut_off", "Order by"],
  ["choose_by", "Choose by"],
  ["pull", "Out of the freezer by"],
  ["make", "To be made by"],
  ["dies", "Ends with this day"],
];

/** What stands on a day's line, in words: kind by kind, and within each in the order of the hour. */
export function DayWords({ marks, zone, now, linked }: DayWordsProps) {
  return (
    <dl class="day-words">
      {KINDS.map(([what, title]) => {
        const of = marks.filter((mark) => mark.what === what);
        if (of.length === 0) return null;
        return (
          <div key={what}>
            <dt>
              <Mark what={what} /> {title}
            </dt>
            {lines(of, zone, now, linked).map((line) => (
              <dd key={line.key}>
                {line.at && <span class="figure">{line.at}</span>}
                <span>{line.said}</span>
              </dd>
            ))}
          </div>
        );
      })}
    </dl>
  );
}

interface Line {
  key: string;
  at: string;
  said: ComponentChildren;
}

function lines(marks: DayMark[], zone: string, now: number, linked: boolean): Line[] {
  const what = marks[0]?.what;
  if (what === "choose_by") return choices(marks, zone);
  return marks.map((mark) => ({
    key: JSON.stringify(mark),
    at: mark.what === "dies" ? "" : clock(mark.at, zone),
    said: <Words mark={mark} zone={zone} now={now} linked={linked} />,
  }));
}

/** One line a meal, with the hour of its earliest dish: that is when somebody has to have chosen. */
function choices(marks: DayMark[], zone: string): Line[] {
  const meals = new Map<string, { at: string; dishes: string[] }>();
  for (const mark of marks) {
    if (mark.what !== "choose_by") continue;
    const meal = meals.get(mark.service) ?? { at: mark.at, dishes: [] };
    meal.dishes.push(...mark.dishes);
    meals.set(mark.service, meal);
  }
  return [...meals].map(([service, { at, dishes }]) => ({
    key: service,
    at: clock(at, zone),
    said: (
      <>
        {serviceName(service)} <span class="soft">{listed(dishes)}</span>
      </>
    ),
  }));
}

function Words(props: { mark: DayMark; zone: string; now: number; linked: boolean }) {
  const { mark, zone, now, linked } = props;
  switch (mark.what) {
    case "service": {
      const name = `${mark.meal}, ${mark.table} (${mark.covers})`;
      return (
        <>
          {linked ? (
            <Link class="touch" to={`/menus/${mark.service}`}>
              {name}
            </Link>
          ) : (
            name
          )}
          {mark.state === "proposed" && <span class="soft"> proposed</span>}
          {mark.short > 0 && <strong> {many(mark.short, "item")} short</strong>}
        </>
      );
    }
    case "delivery":
      return (
        <>
          {mark.supplier}{" "}
          <span class="soft">
            {many(typeof mark.lines === "number" ? mark.lines : mark.lines.length, "line")}
          </span>
        </>
      );
    case "cut_off":
      return (
        <>
          {mark.supplier}{" "}
          <span class="soft">
            {many(mark.items, "item")} for {moment(mark.delivery, zone, now)}
          </span>
        </>
      );
    case "pull":
      return (
        <>
          {amount(mark.quantity)} {mark.item}{" "}
          <span class="soft">
            {mark.label}, for {serviceName(mark.service)}
          </span>
        </>
      );
    case "make":
      return (
        <>
          {amount(mark.quantity)} {mark.item} <span class="soft">for {mark.dish}</span>
        </>
      );
    case "dies":
      return (
        <>
          {mark.item} <span class="soft nowrap">{mark.label}</span>
          {isNothing(mark.promised) && <strong> for nobody yet</strong>}
        </>
      );
    case "choose_by":
      return <>{listed(mark.dishes)}</>;
  }
}

/** `dinner, family` of a service's id. */
export function serviceName(service: string): string {
  const [, meal, table] = service.split("/");
  return `${meal}, ${table}`;
}
