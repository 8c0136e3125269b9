import type { Signal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { HouseRow } from "../../door/rows";
import { Choice, Field, Select } from "../../parts/fields";
import { sentence } from "../../words/menus";

/** A meal that the keys do not have; its name is written. */
export const OTHER = "another";

interface WhenProps {
  house: HouseRow;
  days: { value: string; label: string }[];
  meals: string[];
  date: Signal<string>;
  meal: Signal<string>;
  otherMeal: Signal<string>;
  table: Signal<string>;
  time: Signal<string>;
  /** Another meal or table has another usual hour. */
  onUsual?: () => void;
  /** Others eat at another table. */
  onTable?: () => void;
  /** For how many. */
  children: ComponentChildren;
}

/** For which day, meal and table a menu is proposed, at what hour and for how many. */
export function When(props: WhenProps) {
  const { house, days, meals, date, meal, otherMeal, table, time, onUsual, onTable } = props;
  return (
    <div class="stack">
      <Select label="Day" value={date} options={days} />
      <Choice
        legend="Meal"
        value={meal}
        options={[
          ...meals.map((value) => ({ value, label: sentence(value) })),
          { value: OTHER, label: "Another" },
        ]}
        {...(onUsual && { onChange: onUsual })}
      />
      {meal.value === OTHER && <Field label="Its name" value={otherMeal} required />}
      <Choice
        legend="Table"
        value={table}
        options={house.tables.map((each) => ({ value: each.table, label: each.table }))}
        {...(onTable && { onChange: onTable })}
      />
      <Field
        label="Time"
        value={time}
        hint="24-hour, such as 19:30."
        inputMode="text"
        enterKeyHint="next"
      />
      {props.children}
    </div>
  );
}
