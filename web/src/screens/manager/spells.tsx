import { now } from "../../door/clock";
import type { NoticeRow, PlanRow } from "../../door/rows";
import { listed } from "../../words/amounts";
import { dayName, moment } from "../../words/time";

type Spell = NoticeRow["spells"][number];

/** The days ahead on which few or none are in the house, and what that does to the levels. */
export function Spells({ rows }: { rows: NoticeRow[] }) {
  const spells = rows.find((row) => row.spells.length > 0)?.spells ?? [];
  if (spells.length === 0) return null;
  return (
    <section class="stack tight" aria-label="Who is in the house">
      <h2>Who is in the house</h2>
      <ul class="lines narrow">
        {spells.map((spell) => (
          <li key={spell.first} class="stack tight">
            <strong>{spellName(spell)}</strong>
            <span class="soft small">
              {spell.house === "empty"
                ? "Nothing is ordered up to a level for these days. The last delivery before somebody is there brings what was run down."
                : "What is kept in is ordered for those few, at what each of them uses."}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** By when an item has to be ordered so that it is there when more people are. */
export function Returns({ row, zone }: { row: NoticeRow; zone: string }) {
  if (row.spells.length === 0) return null;
  return (
    <section class="stack tight" aria-label="Until more people are there">
      <h3>Until more people are there</h3>
      <ul>
        {row.spells.map((spell) => (
          <li key={spell.first}>
            {spellName(spell)}. {returnWords(spell, zone)}
          </li>
        ))}
      </ul>
    </section>
  );
}

function returnWords({ delivery, order_by }: Spell, zone: string): string {
  if (!delivery || !order_by) return "No delivery before more are there can be ordered yet.";
  const at = (instant: string) => moment(instant, zone, now.value);
  return `The last delivery before more are there comes ${at(delivery)}; order it by ${at(order_by)}.`;
}

/** `Nobody is in the house from Tue 9 Mar to Wed 24 Mar`. */
function spellName({ house, first, last, people }: Spell): string {
  const who =
    house === "empty"
      ? "Nobody is in the house"
      : `Few are in the house, ${people === 1 ? "one person" : `${people} people`} at most,`;
  const days =
    first === last ? `on ${dayName(first)}` : `from ${dayName(first)} to ${dayName(last)}`;
  return `${who} ${days}`;
}

type Reckoned = NonNullable<NonNullable<NonNullable<PlanRow["derivation"]>["par"]>["reckoned"]>;

/** Why a floor is not the one that is set: how many are there on each day the delivery lasts for. */
export function WhoIsThere(props: { reckoned: Reckoned; of: (thousandths: number) => string }) {
  const { usual, at_one_table, floor, order_up_to, days } = props.reckoned;
  const people = days.map(([day, heads]) => `${dayName(day)} ${heads || "nobody"}`);
  return (
    <p>
      The levels are set for {usual} people: a floor of {props.of(floor)}
      {order_up_to !== null && `, ordered up to ${props.of(order_up_to)}`}. What comes has to last
      for these days, with so many in the house: {listed(people)}. On a day with half of them or
      fewer the floor is for as many of the {at_one_table} who eat together, and what is ordered
      beyond it is their share of these days.
    </p>
  );
}
