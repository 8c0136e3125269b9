import { type Signal, signal, useSignal } from "@preact/signals";
import type { HouseRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Choice, Field, Select } from "../../parts/fields";
import { Form } from "../../parts/form";
import { bring, type Rows } from "./brought";

/** Sends rows of the house book. */
const sends = (rows: () => Record<string, Rows>) => async () =>
  (await bring(rows())).problem ?? null;

const ROOMS: Rows = [
  { area: "Pantry", kind: "ambient" },
  { area: "Cold room", kind: "chilled", min_c: "0", max_c: "5" },
  { area: "Freezer", kind: "frozen", min_c: "-26", max_c: "-18" },
];

export function FirstAreas() {
  return (
    <Form send={sends(() => ({ areas: ROOMS }))} does="Begin with these three">
      <p>
        A pantry, a cold room (0 to 5 °C) and a freezer (-18 °C and colder). More of them, and
        limits of your own, by the house book. Local food law comes first.
      </p>
    </Form>
  );
}

const UNITS = [
  { value: "g", label: "weighed" },
  { value: "ml", label: "poured" },
  { value: "each", label: "counted" },
];

export function FirstItem({ areas }: { areas: HouseRow["areas"] }) {
  const item = useSignal("");
  const unit = useSignal("g");
  const area = useSignal("");
  const contains = useSignal("");
  const write = () => ({
    items: [
      {
        item: item.value.trim(),
        base_unit: unit.value,
        area: area.value,
        contains: contains.value.trim(),
      },
    ],
  });
  return (
    <Form send={sends(write)} does="Write it down">
      <Field label="What it is" value={item} hint="Such as whole milk, or plain flour." required />
      <Choice legend="It is" value={unit} options={UNITS} />
      <Select
        label="Kept in"
        value={area}
        options={[
          { value: "", label: "not said" },
          ...areas.map((each) => ({ value: each.area, label: each.area })),
        ]}
      />
      <Field
        label="Allergens on its label"
        value={contains}
        hint="Separated by ; or none where the label declares none. Left empty they are unknown, and unknown is not free."
      />
    </Form>
  );
}

export function FirstTable() {
  const table = useSignal("Family");
  const covers = useSignal("4");
  const write = () => ({
    tables: [{ table: table.value.trim(), rank: "1", usual_covers: covers.value.trim() }],
  });
  return (
    <Form send={sends(write)} does="Lay the table">
      <div class="pair">
        <Field label="Table" value={table} required />
        <Field label="Usually" value={covers} inputMode="numeric" hint="people" required />
      </div>
    </Form>
  );
}

interface DishLine {
  item: Signal<string>;
  amount: Signal<string>;
}

export function FirstDish() {
  const name = useSignal("");
  const portions = useSignal("4");
  const lines = useSignal<DishLine[]>([]);
  const item = useSignal("");
  const amount = useSignal("");
  const first: DishLine = { item, amount };
  const write = () => {
    const recipe = name.value.trim();
    return {
      recipes: [
        { recipe, kind: "dish", yield: portions.value.trim(), dates: "cooked", approved: "yes" },
      ],
      ingredients: [first, ...lines.value].map((line) => ({
        recipe,
        ingredient: line.item.value.trim(),
        amount: line.amount.value.trim(),
      })),
    };
  };
  const another = () => {
    lines.value = [...lines.value, { item: signal(""), amount: signal("") }];
  };
  return (
    <Form send={sends(write)} does="Write the recipe down">
      <div class="pair">
        <Field label="Dish" value={name} required />
        <Field label="For how many" value={portions} inputMode="numeric" required />
      </div>
      {[first, ...lines.value].map((line, place) => (
        <div class="pair" key={place}>
          <Field label="Ingredient" value={line.item} hint="As you wrote it down." required />
          <Field label="Amount" value={line.amount} hint="Such as 500 g or 1 1/2 cups." required />
        </div>
      ))}
      <div>
        <Button onClick={another}>Another ingredient</Button>
      </div>
    </Form>
  );
}
