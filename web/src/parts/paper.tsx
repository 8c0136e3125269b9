import { me } from "../door/session";
import { dayName } from "../words/time";

/** What stands at the head of a printed sheet: the house, what it is, and its day. */
export function OnPaper({ title, day }: { title: string; day: string }) {
  return (
    <div class="on-paper head" aria-hidden="true">
      <strong>{title}</strong> {me.value?.house.name}, {dayName(day, true)} {day.slice(0, 4)}
    </div>
  );
}

/** A box to tick with a pen; on paper only. */
export function Box() {
  return <span class="on-paper tick-box" aria-hidden="true" />;
}
