import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import type { DishForRow, DishRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { sentence } from "../../words/menus";
import { DishFacts } from "./dish_facts";
import { saidOf } from "./dishes_for";
import { type DraftCourse, type DraftDish, found } from "./draft";
import { RecipeKey } from "./recipe";

interface CourseDraftProps {
  course: DraftCourse;
  dishes: DishRow[];
  /** A dish that somebody came with, offered in every course. */
  first: DishRow | null;
  table: string;
  date: string;
  zone: string;
  /** What each dish would come to at this meal; null: the house has not said. */
  said: DishForRow[] | null;
  /** The course as it is now, or nothing: it is left out. */
  onChange: (next: DraftCourse | null) => void;
}

/** One course of a proposal: its alternatives, and finding more of them by three letters. */
export function CourseDraft(props: CourseDraftProps) {
  const { course, dishes, first, table, date, zone, said, onChange } = props;
  const letters = useSignal("");
  const id = useId();
  const set = (next: DraftDish[]) => onChange({ ...course, dishes: next });
  const hits = found(dishes, letters.value);
  const offered = first && letters.value === "" ? [first] : hits;
  const fresh = offered.filter((row) => !course.dishes.some(({ dish }) => dish === row.id));
  const add = (row: DishRow) => {
    set([...course.dishes, { dish: row.id, name: row.dish, variant: null, portions: null }]);
    letters.value = "";
  };
  return (
    <section class="card stack tight" aria-labelledby={id}>
      <div class="row ends">
        <h2 id={id}>{sentence(course.course)}</h2>
        <Button kind="quiet" onClick={() => onChange(null)}>
          Leave out<span class="unseen"> the {course.course}</span>
        </Button>
      </div>
      <ul class="lines">
        {course.dishes.map((one) => (
          <Alternative
            key={one.dish}
            one={one}
            row={dishes.find((row) => row.id === one.dish)}
            said={saidOf(said, one)}
            {...{ table, date, zone }}
            onVariant={(variant) =>
              set(course.dishes.map((each) => (each === one ? { ...each, variant } : each)))
            }
            onAway={() => set(course.dishes.filter((each) => each !== one))}
          />
        ))}
      </ul>
      <Field
        label={`${course.dishes.length > 0 ? "Or another" : "A"} dish for the ${course.course}`}
        value={letters}
        hint="Three letters find it."
        enterKeyHint="search"
      />
      {letters.value.trim().length >= 3 && hits.length === 0 && (
        <p class="soft" role="status">
          No dish of the house has these letters.
        </p>
      )}
      <ul class="lines">
        {fresh.map((row) => (
          <li key={row.id}>
            <button type="button" class="whole" onClick={() => add(row)}>
              <strong>{row.dish}</strong>
              <DishFacts
                row={row}
                said={saidOf(said, { dish: row.id, variant: null })}
                {...{ table, date, zone }}
              />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface AlternativeProps {
  one: DraftDish;
  row: DishRow | undefined;
  said: DishForRow | null;
  table: string;
  date: string;
  zone: string;
  onVariant: (variant: string | null) => void;
  onAway: () => void;
}

function Alternative(props: AlternativeProps) {
  const { one, row, said, table, date, zone, onVariant, onAway } = props;
  const id = useId();
  return (
    <li class="stack tight">
      <strong>{one.name}</strong>
      {row && <DishFacts {...{ row, said, table, date, zone }} />}
      {row && row.variants.length > 0 && (
        <div class="field">
          <label for={id}>
            Version<span class="unseen"> of {one.name}</span>
          </label>
          <select
            id={id}
            value={one.variant ?? ""}
            onChange={(event) => onVariant(event.currentTarget.value || null)}
          >
            <option value="">as it stands</option>
            {row.variants.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </div>
      )}
      <div class="row">
        <RecipeKey dish={one.dish} name={one.name} />
        <Button onClick={onAway}>
          Take away<span class="unseen"> {one.name}</span>
        </Button>
      </div>
    </li>
  );
}
