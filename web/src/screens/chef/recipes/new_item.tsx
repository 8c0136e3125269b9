import { type Signal, useSignal } from "@preact/signals";
import { Button } from "../../../parts/button";
import { Pick, Text, Tick } from "./text";
import type { Draft, DraftItem } from "./writing";

/** An ingredient that is no item of the house: choose another name, or enter it with the recipe. */
export function NewItem({ name, draft }: { name: string; draft: Signal<Draft> }) {
  const open = useSignal(false);
  const unit = useSignal<DraftItem["unit"]>("g");
  const counted = useSignal(true);
  const contains = useSignal("");
  const enter = () => {
    const item = { item: name, unit: unit.value, counted: counted.value, contains: contains.value };
    draft.value = { ...draft.value, items: [...draft.value.items, item] };
  };
  if (!open.value) {
    return (
      <div class="row">
        <span>No item is called {name}.</span>
        <Button
          onClick={() => {
            open.value = true;
          }}
        >
          Enter {name} as a new item
        </Button>
      </div>
    );
  }
  return (
    <fieldset class="stack card">
      <legend class="legend">New item: {name}</legend>
      <Pick
        label="Measured in"
        value={unit.value}
        options={[
          ["g", "weight (g)"],
          ["ml", "volume (ml)"],
          ["each", "pieces"],
        ]}
        onPick={(picked) => {
          unit.value = picked as DraftItem["unit"];
        }}
      />
      <Tick
        label="It is counted; else only plenty, low or out"
        checked={counted.value}
        onTick={(checked) => {
          counted.value = checked;
        }}
      />
      <Text
        label="What its label declares"
        value={contains.value}
        onInput={(typed) => {
          contains.value = typed;
        }}
        hint="such as milk; eggs. None where the label has none. Empty: nobody knows yet."
      />
      <Button onClick={enter}>Enter it with the recipe</Button>
    </fieldset>
  );
}
