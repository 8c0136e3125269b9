import { now } from "../../door/clock";
import type { SupplierRow } from "../../door/rows";
import { dayOf } from "../../words/time";

const WEEKS = 5;
const DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
const A_DAY = 86_400_000;

/** Days as they fall under each other: what comes, by when to order, what falls away. The same stands in words. */
export function Weeks({ row, zone }: { row: SupplierRow; zone: string }) {
  const today = dayOf(new Date(now.value), zone);
  const marks = marksOf(row, zone);
  return (
    <figure class="stack tight" aria-hidden="true">
      <div class="weeks">
        {DAYS.map((name) => (
          <span key={name} class="soft small">
            {name}
          </span>
        ))}
        {daysFrom(today).map((day) => (
          <span key={day} class={day < today ? "day past" : day === today ? "day today" : "day"}>
            <span>{Number(day.slice(8))}</span>
            <strong>{marks.get(day)}</strong>
          </span>
        ))}
      </div>
      <figcaption class="soft small">
        ■ comes · → comes, moved here · ✕ does not come · ◷ order by
      </figcaption>
    </figure>
  );
}

function marksOf(row: SupplierRow, zone: string): Map<string, string> {
  const marks = new Map<string, string>();
  const put = (day: string, mark: string) => {
    const before = marks.get(day) ?? "";
    if (!before.includes(mark)) marks.set(day, before + mark);
  };
  for (const { on, comes_on: day, order_by: by } of row.coming) {
    if (day !== on) put(on, "✕");
    if (day) put(day, day === on ? "■" : "→");
    if (by && Date.parse(by) >= now.value) put(dayOf(by, zone), "◷");
  }
  return marks;
}

/** Whole weeks from the Monday of this one. */
function daysFrom(today: string): string[] {
  const at = Date.parse(`${today}T12:00:00Z`);
  const since = (new Date(at).getUTCDay() + 6) % 7;
  return Array.from({ length: WEEKS * DAYS.length }, (_, number) =>
    new Date(at + (number - since) * A_DAY).toISOString().slice(0, 10),
  );
}
