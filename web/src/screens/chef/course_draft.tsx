import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import type { DishRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { listed } from "../../words/amounts";
import { sentence } from "../../words/menus";
import { dayName } from "../../words/time";
import { type DraftCourse, type DraftDish, found } from "./draft";
import { RecipeKey } from "./recipe";
import { isInSeason, seasonSaid } from "./season";

interface CourseDraftProps {
  course: DraftCourse;
  dishes: DishRow[];
  /** A dish that somebody came with, offered in every course. */
  first: DishRow | null;
  table: string;
  date: string;
  /** The course as it is now, or nothing: it is left out. */
  onChange: (next: DraftCourse | null) => void;
}

/** One course of a proposal: its alternatives, and finding more of them by three letters. */
export function CourseDraft({ course, dishes, first, table, date, onChange }: CourseDraftProps) {
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
            table={table}
            date={date}
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
              <Facts row={row} table={table} date={date} />
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
  table: string;
  date: string;
  onVariant: (variant: string | null) => void;
  onAway: () => void;
}

function Alternative({ one, row, table, date, onVariant, onAway }: AlternativeProps) {
  const id = useId();
  return (
    <li class="stack tight">
      <strong>{one.name}</strong>
      {row && <Facts row={row} table={table} date={date} />}
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

/** What helps to decide: its season, when this table last had it, what is in it. */
function Facts({ row, table, date }: { row: DishRow; table: string; date: string }) {
  const last = row.last_served.find((each) => each.table === table);
  const season = seasonSaid(row);
  return (
    <span class="facts-of">
      {season && !isInSeason(row, date) && <strong>Out of season. </strong>}
      {season && `${season} `}
      {last ? `Last for ${table}: ${dayName(last.date)}. ` : `Not yet served to ${table}. `}
      {row.contains.length > 0 && `Contains ${listed(row.contains)}. `}
      {row.may_contain.length > 0 && `May contain ${listed(row.may_contain)}. `}
      {row.unknown.length > 0 && "Not everything in it has declared its allergens. "}
      {!row.approved && <strong>Its recipe is not approved yet. </strong>}
    </span>
  );
}
