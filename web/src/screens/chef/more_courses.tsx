import { useSignal } from "@preact/signals";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";

/** One more course: one that menus of this house have, or another by its name. */
export function MoreCourses({
  names,
  onAdd,
}: {
  names: string[];
  onAdd: (course: string) => void;
}) {
  const other = useSignal("");
  const add = (name: string) => {
    if (name.trim()) onAdd(name.trim().toLowerCase());
    other.value = "";
  };
  return (
    <fieldset class="stack tight">
      <legend class="legend">One more course</legend>
      <div class="row">
        {names.map((name) => (
          <Button key={name} onClick={() => add(name)}>
            {name}
          </Button>
        ))}
      </div>
      <form
        class="beside"
        onSubmit={(event) => {
          event.preventDefault();
          add(other.value);
        }}
      >
        <Field label="Another course" value={other} enterKeyHint="done" />
        <Button type="submit">Add it</Button>
      </form>
    </fieldset>
  );
}
