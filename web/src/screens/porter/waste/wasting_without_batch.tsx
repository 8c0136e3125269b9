import { type Signal, useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import { DAYS_AHEAD } from "../../../door/needed";
import type { Taken } from "../../../door/photos/keeping";
import type { Problem } from "../../../door/problem";
import { useReport } from "../../../door/reports";
import type { DayMark, ItemRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { BegunBefore } from "../../../parts/begun";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { useDraft } from "../../../parts/draft";
import { Choice, Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Wrong } from "../../../parts/said";
import { dayOf } from "../../../words/time";
import { PicturesKey } from "../pictures_key";
import { kept, naming } from "./pictures_kept";
import { DESTINATIONS, lastDestination, rememberDestination } from "./why";
import { WhyAndWhere } from "./why_and_where";
import {
  amountOf,
  bodyOf,
  CAME_BACK,
  dishesOf,
  nameOf,
  unitsOf,
  unitWords,
  type What,
} from "./without_batch";

const PLACE = "/waste/no-batch";
const OTHER = "";

/** Food whose batch nobody knows, or that was served: it is written down and leaves no stock. */
export function WastingWithoutBatch({ item }: { item?: ItemRow | undefined }) {
  const dish = useSignal(OTHER);
  const words = useSignal("");
  const typed = useSignal("");
  const chosen = useSignal<string>(item?.unit ?? "g");
  const reason = useSignal<string>(item ? "" : CAME_BACK);
  const destination = useSignal(lastDestination());
  const pictures = useSignal<Taken[]>([]);
  const fields = { dish, words, typed, chosen, reason, destination };
  const draft = useDraft(`${PLACE}/${item?.id ?? ""}`, fields, pictures, false);
  const tried = useSignal(false);
  const problem = useSignal<Problem | null>(null);
  const doing = useDoing(PLACE);
  const what = whatOf(item, dish.value, words.value);
  const unit = unitsOf(what).find((each) => each === chosen.value) ?? unitsOf(what)[0] ?? "g";
  const destinations = DESTINATIONS.filter(
    (each) => each !== "staff" || reason.value !== CAME_BACK,
  );
  const body = bodyOf(what, typed.value, unit, reason.value, destination.value);
  const lost = body && `${amountOf(what, typed.value, unit)} ${nameOf(what)}`;
  const wrong = lacking(Boolean(body), what, reason.value);
  const record = async () => {
    await draft.ready;
    tried.value = true;
    if (wrong || !body) return;
    problem.value = await kept(pictures.value);
    if (problem.value) return;
    const said = `${lost}, ${reason.value}, to ${destination.value}`;
    const answer = await doing.act(
      "waste_without_batch",
      { ...body, ...naming(pictures.value) },
      said,
    );
    if (!isGiven(answer) && answer.outcome !== "kept") return;
    rememberDestination(destination.value);
    tried.value = false;
    typed.value = "";
    words.value = "";
    pictures.value = [];
    draft.forget();
    scrollTo(0, 0);
  };
  const noStaff = () => {
    if (reason.value === CAME_BACK && destination.value === "staff") destination.value = "bin";
  };
  return (
    <>
      <Place title={item?.item ?? "From the table, or no label"} under="Waste without a batch">
        <Done doing={doing} />
        <BegunBefore draft={draft} />
        <section class="narrow stack line" aria-label="What is lost">
          <p class="soft">
            Nothing leaves the stock by it: what the shelf lacks, the next count finds.
          </p>
          {!item && <WhatItWas dish={dish} words={words} unit={chosen} />}
          {unitsOf(what).length > 1 && (
            <Choice
              legend="Measured in"
              value={chosen}
              options={unitsOf(what).map((each) => ({ value: each, label: unitWords(each, what) }))}
            />
          )}
          <Field
            label={`How much, ${unitWords(unit, what)}`}
            value={typed}
            inputMode="decimal"
            enterKeyHint="done"
          />
          <WhyAndWhere
            reason={reason}
            destination={destination}
            destinations={destinations}
            onReason={noStaff}
          />
          <PicturesKey taken={pictures} of="What is lost" />
          {tried.value && wrong && (
            <div class="said wrong" role="alert">
              <strong>{wrong}</strong>
            </div>
          )}
          {problem.value && <Wrong problem={problem.value} />}
        </section>
        <p>
          <Link class="touch" to="/waste">
            Something else
          </Link>
        </p>
      </Place>
      <ActBar>
        <Button kind="main" onClick={() => void record()} disabled={doing.busy.value}>
          {lost ?? "This"} to waste
        </Button>
      </ActBar>
    </>
  );
}

function whatOf(item: ItemRow | undefined, dish: string, words: string): What {
  if (item) return { kind: "item", item };
  return dish === OTHER ? { kind: "words", words } : { kind: "dish", dish };
}

function lacking(isSaid: boolean, what: What, reason: string): string {
  if (!nameOf(what)) return "Say what it was.";
  if (!isSaid) return "Say how much is lost, as a number above nothing.";
  return reason ? "" : "Say why it is lost.";
}

interface WhatItWasProps {
  dish: Signal<string>;
  words: Signal<string>;
  unit: Signal<string>;
}

/** A dish of today's meals, or anything else in words. */
function WhatItWas({ dish, words, unit }: WhatItWasProps) {
  const days = useReport<DayMark>("days", { days: String(DAYS_AHEAD) });
  const today = dayOf(new Date(now.value), me.value?.house.zone ?? "UTC");
  const dishes = dishesOf(days.said.value?.rows ?? [], today);
  return (
    <>
      {dishes.length > 0 && (
        <Choice
          legend="What it was"
          value={dish}
          options={[
            ...dishes.map((each) => ({ value: each, label: each })),
            { value: OTHER, label: "something else" },
          ]}
          onChange={() => {
            unit.value = dish.value === OTHER ? "g" : "each";
          }}
        />
      )}
      {dish.value === OTHER && (
        <Field
          label="What it was, in words"
          hint="A pot of soup, the children's plates."
          value={words}
          enterKeyHint="next"
        />
      )}
    </>
  );
}
