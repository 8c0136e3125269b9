import "../../look/menus.css";
import { useId } from "preact/hooks";
import type { CoverageRow, MenuDish, MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { dishName, sentence } from "../../words/menus";
import { isOf, type Pick, withOwnDish, withPortions } from "./choice";
import { DishLine } from "./dish_line";
import { StandingMark } from "./state_mark";

interface CourseChoiceProps {
  row: MenuRow;
  course: string;
  dishes: MenuDish[];
  zone: string;
  coverage: CoverageRow[] | null;
  picks: Pick[];
  covers: string;
  onPicks: (picks: Pick[]) => void;
  onTurn: (dish: MenuDish) => void;
}

/** One course with its alternatives as large keys; with two dishes, how many of each. */
export function CourseChoice(props: CourseChoiceProps) {
  const { row, course, dishes, zone, coverage, picks, covers, onPicks, onTurn } = props;
  const of = picks.filter((one) => one.course === course);
  const own = of.filter((one) => !dishes.some((dish) => isOf(one, course, dish)));
  return (
    <fieldset class="course">
      <legend>
        <h2>{sentence(course)}</h2>
      </legend>
      <ul class="lines">
        {dishes.map((dish) => {
          const picked = of.find((one) => isOf(one, course, dish));
          return (
            <li key={dish.dish + dish.variant}>
              <DishLine row={row} course={course} dish={dish} zone={zone} coverage={coverage}>
                <label class="picks">
                  <input
                    type="checkbox"
                    checked={picked !== undefined}
                    onChange={() => onTurn(dish)}
                  />
                  <span>{dishName(dish)}</span>
                </label>
              </DishLine>
              {picked && <OwnDishes {...{ course, dish, picks, covers, onPicks }} />}
              {picked && of.length > 1 && (
                <Portions one={picked} picks={picks} covers={covers} onPicks={onPicks} />
              )}
            </li>
          );
        })}
        {own.map((one) => (
          <li key={one.dish + one.variant} class="stack tight">
            <strong>
              {dishName(one)}{" "}
              <span class="soft">
                {one.person ? `for ${one.person}` : "asked for by the household"}
              </span>
            </strong>
            <Portions one={one} picks={picks} covers={covers} onPicks={onPicks} />
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

interface OwnDishesProps {
  course: string;
  dish: MenuDish;
  picks: Pick[];
  covers: string;
  onPicks: (picks: Pick[]) => void;
}

/** The key that gives whoever cannot eat a picked dish their own safe one. */
function OwnDishes({ course, dish, picks, covers, onPicks }: OwnDishesProps) {
  const own = picks.filter((one) => one.course === course && one.person !== null);
  const served = new Set(own.map((one) => one.person));
  const people = new Set(dish.conflicts.map(({ person }) => person));
  return (
    <>
      {own
        .filter(({ person }) => people.has(person ?? ""))
        .map((one) => (
          <span key={one.person} class="row standing">
            <StandingMark stands="covered" />
            {one.person} has their own: {dishName(one)}
          </span>
        ))}
      {dish.conflicts
        .filter(({ person, safe }) => safe && !served.has(person))
        .map((conflict) => (
          <Button
            key={conflict.person + conflict.cannot_eat}
            onClick={() => onPicks(withOwnDish(picks, course, dish, conflict, covers))}
          >
            Give {conflict.person}: {conflict.safe && dishName(conflict.safe)}
          </Button>
        ))}
    </>
  );
}

interface PortionsProps {
  one: Pick;
  picks: Pick[];
  covers: string;
  onPicks: (picks: Pick[]) => void;
}

function Portions({ one, picks, covers, onPicks }: PortionsProps) {
  const id = useId();
  return (
    <div class="field portions">
      <label for={id}>
        Portions<span class="unseen"> of {dishName(one)}</span>
      </label>
      <input
        id={id}
        type="text"
        inputMode="numeric"
        autoComplete="off"
        value={one.portions}
        placeholder={`one for each of ${covers}`}
        aria-describedby={`${id}-hint`}
        onInput={(event) => onPicks(withPortions(picks, one, event.currentTarget.value))}
      />
      <span class="hint" id={`${id}-hint`}>
        Left empty: one for each of {covers}.
      </span>
    </div>
  );
}
