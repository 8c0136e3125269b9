import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { now } from "../../../door/clock";
import { me } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { dayOf } from "../../../words/time";
import { AmountKeys } from "../amount_keys";
import { DateKeys } from "../date_keys";
import type { InHand } from "../in_hand";
import { amountWords } from "../line_body";
import type { Facts } from "../line_facts";
import { useLine } from "../line_state";
import { WhereTo } from "../where_to";
import { type Bought, bought, hindrance } from "./bought";

interface AddBoughtProps {
  facts: Facts;
  hand: InHand | null;
  onAdd: (one: Bought) => void;
  onBack: () => void;
}

/** One thing that was bought: how much, its date where it is chilled, where it goes. */
export function AddBought({ facts, hand, onAdd, onBack }: AddBoughtProps) {
  const state = useLine(facts, hand, null);
  const cost = useSignal("");
  const wrong = useSignal<string | null>(null);
  useMemo(() => {
    // what stands dry has its date on the pack for whoever looks; nobody keys it in at the back door
    if (!hand?.read.date_mark && !needsDate(facts)) state.kind.value = "none";
  }, []);
  const currency = me.value?.house.currency ?? "";
  const today = dayOf(new Date(now.value), facts.zone);
  const add = () => {
    wrong.value = hindrance(facts, state, cost.value, currency);
    if (!wrong.value) onAdd(bought(facts, state, cost.value, currency));
  };
  return (
    <>
      <Place title={facts.item.item} under="Bought">
        <form
          id="bought"
          class="narrow stack line"
          onSubmit={(event) => {
            event.preventDefault();
            add();
          }}
        >
          <fieldset class="stack">
            <legend class="unseen">What was bought</legend>
            <AmountKeys facts={facts} state={state} />
            <DateKeys facts={facts} state={state} today={today} zone={facts.zone} />
            <WhereTo facts={facts} state={state} />
            <Field
              label={`What it cost, ${currency}`}
              value={cost}
              inputMode="decimal"
              enterKeyHint="done"
              hint="Only if you want to say it; the whole of the receipt is enough."
            />
          </fieldset>
          {wrong.value && (
            <div class="said wrong" role="alert">
              <strong>{wrong.value}</strong>
            </div>
          )}
          <div>
            <Button kind="quiet" onClick={onBack}>
              Back without it
            </Button>
          </div>
        </form>
      </Place>
      <ActBar>
        <Button kind="main" type="submit" form="bought">
          Add {amountWords(facts, state)}
        </Button>
      </ActBar>
    </>
  );
}

/** Whether its date matters: what can hurt, and what stands in the cold. */
function needsDate({ item, areas }: Facts): boolean {
  const kind = areas.find(({ id }) => id === item.area_id)?.kind;
  return item.high_risk || kind === "chilled";
}
