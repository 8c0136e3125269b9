import { now } from "../../door/clock";
import type { MenuRow } from "../../door/rows";
import { many } from "../../words/amounts";
import { toChoose } from "../../words/menus";
import { clock, dayName } from "../../words/time";
import { ChooseBy } from "./choose_by";
import { StateMark } from "./state_mark";

export interface KnownProps {
  row: MenuRow;
  zone: string;
}

/** Day, hour, covers and state, as the line under the name. */
export function Under({ row, zone }: KnownProps) {
  return (
    <span class="row base">
      <span>
        {dayName(row.date, true)} {clock(row.at, zone)}, {many(row.covers, "cover")}
      </span>
      <StateMark state={row.state} />
    </span>
  );
}

/** By when it must be chosen, while it can be. */
export function Head({ row, zone }: KnownProps) {
  const { next } = toChoose(row, now.value);
  if (row.state !== "proposed" || !next) return null;
  return <ChooseBy at={next} notice={row.notice_by} zone={zone} />;
}
