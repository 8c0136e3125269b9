import { useSignal } from "@preact/signals";
import type { Problem } from "../../door/problem";
import type { MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Panel } from "../../parts/panel";
import { holdsSaid, NOTHING_SAFE } from "../../words/conflicts";
import { CAUTION, dishName } from "../../words/menus";
import { type Pick, unsettled, withOwnDish } from "./choice";

interface CannotEatProps {
  problem: Problem;
  row: MenuRow;
  picks: Pick[];
  covers: string;
  onSafe: (picks: Pick[]) => void;
  onOverride: (person: string) => void;
  onClose: () => void;
}

/**
 * Somebody at the table cannot eat what was picked: their own safe dish is one key, and serving it to them
 * all the same asks for their name.
 */
export function CannotEat(props: CannotEatProps) {
  const { problem, row, picks, covers, onSafe, onOverride, onClose } = props;
  const name = useSignal("");
  const found = unsettled(row, picks);
  const named =
    found.find(({ conflict }) => problem.detail.startsWith(conflict.person)) ?? found[0];
  const course = row.courses.find(({ dishes }) => named && dishes.includes(named.dish))?.course;
  if (!named || course === undefined) {
    return (
      <Panel title="Somebody cannot eat this" onClose={onClose}>
        <p>{problem.detail}</p>
        <p class="soft">{problem.todo}</p>
      </Panel>
    );
  }
  const { dish, conflict } = named;
  const isNamed = name.value.trim().toLowerCase() === conflict.person.toLowerCase();
  return (
    <Panel title={`${conflict.person} cannot eat this`} onClose={onClose}>
      <p>
        <strong>{dishName(dish)}</strong>: {holdsSaid(conflict)}.
      </p>
      <p class="soft">{CAUTION}</p>
      {conflict.safe ? (
        <Button
          kind="main"
          onClick={() => onSafe(withOwnDish(picks, course, dish, conflict, covers))}
        >
          Give {conflict.person}: {dishName(conflict.safe)}
        </Button>
      ) : (
        <p>
          For {conflict.person}: {NOTHING_SAFE}.
        </p>
      )}
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (isNamed) onOverride(conflict.person);
        }}
      >
        <Field
          label="Or take it on knowingly: whose safety is it?"
          value={name}
          hint={`Write ${conflict.person} to serve it to them all the same. It is kept with your name.`}
        />
        <Button type="submit" disabled={!isNamed}>
          Serve it to {conflict.person} all the same
        </Button>
      </form>
    </Panel>
  );
}
