import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { type BodyOf, isGiven, newId } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { HouseRow, ServingDish, ServingRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Button } from "../../../parts/button";
import { type Doing, undoOf } from "../../../parts/doing";
import { Choice, Select } from "../../../parts/fields";
import { Panel } from "../../../parts/panel";
import { Link } from "../../../parts/router";
import { many } from "../../../words/amounts";
import { dishName } from "../../../words/menus";
import { moment } from "../../../words/time";
import { isWhole, Stepper } from "../stepper";

interface LeftOversProps {
  row: ServingRow;
  zone: string;
  doing: Doing;
}

/** What came back unserved from the pot: each dish's portions become a batch with a label. */
export function LeftOvers({ row, zone, doing }: LeftOversProps) {
  const open = useSignal<ServingDish | null>(null);
  return (
    <section class="stack tight narrow" aria-label="Left over">
      <h2>Left over, unserved</h2>
      {row.left_overs.length > 0 && (
        <ul class="lines work">
          {row.left_overs.map((left) => {
            const of = { name: left.dish, variant: left.variant };
            const words = `${many(left.portions, "portion")} of ${dishName(of)}, ${left.label}`;
            return (
              <li key={left.batch} class="row ends">
                <span class="stack tight what">
                  <strong>{words}</strong>
                  {left.usable_until && (
                    <span>use by {moment(left.usable_until, zone, now.value)}</span>
                  )}
                </span>
                <span class="row">
                  <Link class="button quiet" to="/round/cooling">
                    Temperature<span class="unseen"> of {words}</span>
                  </Link>
                  <Link class="button quiet" to={`/labels/${left.label}`}>
                    Label<span class="unseen"> of {words}</span>
                  </Link>
                  {left.command && (
                    <Button
                      onClick={() =>
                        void doing.undo(undoOf(left.command ?? "", doing.place, words))
                      }
                      disabled={doing.busy.value}
                    >
                      Undo<span class="unseen"> {words}</span>
                    </Button>
                  )}
                </span>
              </li>
            );
          })}
        </ul>
      )}
      {mayGive("left_over") && (
        <div class="kitchen-keys">
          {row.dishes
            .filter((dish) => (dish.served ?? dish.portions) > 0 || dish.portions > 0)
            .map((dish) => (
              <Button
                key={dish.dish + dish.variant}
                onClick={() => {
                  open.value = dish;
                }}
              >
                {dishName(dish)}
                <span class="unseen"> is left over</span>
              </Button>
            ))}
        </div>
      )}
      <p class="soft">
        Only what was never on a table. It keeps the day it was cooked first, and cools like
        anything that was cooked; local codes come first. What came back from a table is{" "}
        <Link to="/waste/no-batch">waste</Link>.
      </p>
      {open.value && (
        <LeftOverOf
          row={row}
          dish={open.value}
          doing={doing}
          onClose={() => {
            open.value = null;
          }}
        />
      )}
    </section>
  );
}

const A_DAY = 86_400_000;
const COOKED = [
  { value: "0", label: "for this meal" },
  { value: "1", label: "the day before" },
  { value: "2", label: "two days before" },
];

interface LeftOverOfProps {
  row: ServingRow;
  dish: ServingDish;
  doing: Doing;
  onClose: () => void;
}

function LeftOverOf({ row, dish, doing, onClose }: LeftOverOfProps) {
  const house = useReport<HouseRow>("house").said.value?.rows[0];
  const areas = house?.areas.filter(({ kind }) => kind !== "ambient") ?? [];
  const portions = useSignal("1");
  const chilled = areas.find(({ kind }) => kind === "chilled")?.area ?? "";
  const area = useSignal(chilled);
  // the house may tell its areas only once this is open
  if (area.value === "" && chilled) area.value = chilled;
  const before = useSignal("0");
  const isReady = isWhole(portions.value) && Number(portions.value) > 0 && area.value !== "";
  const keep = async () => {
    const { dish: id, variant } = dish;
    const body: BodyOf<"left_over"> = {
      service: row.service,
      dish: id,
      portions: Number(portions.value),
      child: newId(),
      area: area.value,
    };
    if (variant) body.variant = variant;
    if (before.value !== "0") {
      const at = new Date(Date.parse(row.at) - Number(before.value) * A_DAY);
      body.cooked_at = `${at.toISOString().slice(0, 19)}Z`;
    }
    const words = `${many(body.portions, "portion")} of ${dishName(dish)}`;
    if (isGiven(await doing.act("left_over", body, words))) onClose();
  };
  return (
    <Panel title={`${dishName(dish)}, left over`} onClose={onClose}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          if (isReady) void keep();
        }}
      >
        <Stepper label="Portions" value={portions} />
        <Select
          label="Goes to"
          value={area}
          options={areas.map(({ area: name }) => ({ value: name, label: name }))}
        />
        <Choice legend="Cooked first" value={before} options={COOKED} />
        <Button kind="main" type="submit" disabled={!isReady || doing.busy.value}>
          {isReady ? `Keep ${many(Number(portions.value), "portion")}` : "How many portions?"}
        </Button>
      </form>
    </Panel>
  );
}
