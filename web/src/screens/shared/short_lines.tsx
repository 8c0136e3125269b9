import { now } from "../../door/clock";
import type { QuestionRow } from "../../door/rows";
import { serviceName } from "../../parts/day_words";
import { Ways } from "../../parts/ways";
import { amount, isNothing } from "../../words/amounts";
import { dayOf, moment, near } from "../../words/time";

type Line = QuestionRow["short"][number];
type Dish = Line["dishes"][number];

/** What a delivery left short as it stands now: who goes without, and what can replace it by when. */
export function ShortLines({ lines, zone }: { lines: Line[]; zone: string }) {
  return (
    <ul class="stack" aria-label="What is short">
      {lines.map((line) => (
        <li key={line.item} class="stack tight">
          <strong>
            {line.item}
            {!isNothing(line.missing) && `: ${amount(line.missing)} short`}
          </strong>
          {line.dishes.length === 0 && (
            <span>Every menu that is chosen has enough all the same.</span>
          )}
          {line.dishes.map((dish) => (
            <Lacking key={`${dish.service} ${dish.dish}`} dish={dish} zone={zone} />
          ))}
        </li>
      ))}
    </ul>
  );
}

function Lacking({ dish, zone }: { dish: Dish; zone: string }) {
  const [day = ""] = dish.service.split("/");
  const when = near(day, dayOf(new Date(now.value), zone));
  return (
    <div class="stack tight">
      {isNothing(dish.lacking) ? (
        <span>
          {dish.dish} for {serviceName(dish.service)} {when} asks for some.
        </span>
      ) : (
        <>
          <span>
            {dish.dish} for {serviceName(dish.service)} {when} lacks {amount(dish.lacking)}, wanted
            by {moment(dish.wanted_by, zone, now.value)}. What is left:
          </span>
          <Ways ways={dish.ways_out} zone={zone} />
        </>
      )}
    </div>
  );
}
