import type { DayMark } from "../door/rows";
import { amount, isNothing, listed, many } from "../words/amounts";
import { clock, moment } from "../words/time";
import { Mark } from "./marks";
import { Link } from "./router";

interface DayWordsProps {
  marks: DayMark[];
  zone: string;
  now: number;
  /** Whether services and orders are links: not every role goes there. */
  linked: boolean;
}

/** What stands on a day's line, in words and in the order of the hour. */
export function DayWords({ marks, zone, now, linked }: DayWordsProps) {
  const dying = marks.filter((mark) => mark.what === "dies");
  const others = marks.filter((mark) => mark.what !== "dies");
  return (
    <ul class="day-words">
      {others.map((mark) => (
        <li key={mark.what + mark.at + JSON.stringify(mark)}>
          <Mark what={mark.what} />
          <span class="figure">{clock(mark.at, zone)}</span>
          <span>
            <Words mark={mark} zone={zone} now={now} linked={linked} />
          </span>
        </li>
      ))}
      {dying.length > 0 && (
        <li>
          <Mark what="dies" />
          <span class="figure">ends</span>
          <span>
            {dying.map((mark, place) => (
              <span key={mark.batch}>
                {place > 0 && "; "}
                {mark.item} <span class="soft">{mark.label}</span>
                {isNothing(mark.promised) && <span class="nowrap"> (for nobody yet)</span>}
              </span>
            ))}
          </span>
        </li>
      )}
    </ul>
  );
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
          {mark.supplier} comes
          <span class="soft">
            {" "}
            {many(typeof mark.lines === "number" ? mark.lines : mark.lines.length, "line")}
          </span>
        </>
      );
    case "cut_off":
      return (
        <>
          order by, {mark.supplier}
          <span class="soft">
            {" "}
            {many(mark.items, "item")} for {moment(mark.delivery, zone, now)}
          </span>
        </>
      );
    case "choose_by":
      return (
        <>
          choose by: {listed(mark.dishes)}
          <span class="soft"> for {serviceName(mark.service)}</span>
        </>
      );
    case "pull":
      return (
        <>
          out of the freezer: {amount(mark.quantity)} {mark.item}
          <span class="soft">
            {" "}
            {mark.label}, {mark.area}, for {serviceName(mark.service)}
          </span>
        </>
      );
    case "make":
      return (
        <>
          ready: {amount(mark.quantity)} {mark.item}
          <span class="soft"> for {mark.dish}</span>
        </>
      );
    case "dies":
      return <>{mark.item}</>;
  }
}

/** `dinner, family` of a service's id. */
export function serviceName(service: string): string {
  const [, meal, table] = service.split("/");
  return `${meal}, ${table}`;
}
