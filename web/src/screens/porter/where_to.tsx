import { Select } from "../../parts/fields";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

interface WhereToProps {
  facts: Facts;
  state: LineState;
}

/** Where it is put away: the item's own place is proposed. */
export function WhereTo({ facts, state }: WhereToProps) {
  return (
    <Select
      label="Goes to"
      value={state.area}
      options={[
        ...(state.area.value ? [] : [{ value: "", label: "choose" }]),
        ...facts.areas.map(({ id, area: name }) => ({ value: id, label: name })),
      ]}
    />
  );
}
