import { type Signal, useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import type { Problem } from "../../../door/problem";
import type { StockRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { less, sign } from "../../../door/sums";
import { BegunBefore } from "../../../parts/begun";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { useDraft } from "../../../parts/draft";
import { Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Wrong } from "../../../parts/said";
import { amount } from "../../../words/amounts";
import { inUnit } from "../../../words/typed";
import { TimeLeft } from "../batches";
import { PicturesKey } from "../pictures_key";
import { kept, naming } from "./pictures_kept";
import { destinationsFor, isOver, lastDestination, rememberDestination } from "./why";
import { WhyAndWhere } from "./why_and_where";

/** How much of a batch is lost, why, and where it goes: all of it is proposed. */
export function Wasting({ row }: { row: StockRow }) {
  const over = isOver(row, new Date(now.value));
  const reason = useSignal<string>(over ? "out of date" : "");
  const destination = useSignal(lastDestination());
  const typed = useSignal("");
  const pictures = useSignal<Taken[]>([]);
  const fields = { reason, destination, typed };
  const draft = useDraft(`/waste/${row.batch}`, fields, pictures, false);
  const tried = useSignal(false);
  const problem = useSignal<Problem | null>(null);
  const doing = useDoing("/waste");
  const mark = me.value?.house.decimal_mark ?? ".";
  const { unit } = row.on_hand;
  const exact = typed.value.trim() ? inUnit(typed.value, unit) : row.on_hand.value;
  const words = exact === null ? "" : amount({ value: exact, unit }, mark);
  const wrong = lacking(exact, reason.value);
  const record = async () => {
    await draft.ready;
    tried.value = true;
    if (wrong || exact === null) return;
    problem.value = await kept(pictures.value);
    if (problem.value) return;
    const body = {
      batch: row.batch,
      quantity: { value: exact, unit },
      reason: reason.value,
      destination: destination.value,
      ...naming(pictures.value),
    };
    const said = `${words} ${row.item} ${row.label}, ${reason.value}, to ${destination.value}`;
    const answer = await doing.act("waste", body, said);
    if (!isGiven(answer) && answer.outcome !== "kept") return;
    rememberDestination(destination.value);
    tried.value = false;
    typed.value = "";
    pictures.value = [];
    draft.forget();
    scrollTo(0, 0);
  };
  return (
    <>
      <Place title={row.item} under={`Waste, label ${row.label}`}>
        <Done doing={doing} />
        <BegunBefore draft={draft} />
        <section class="narrow stack line" aria-label="What is lost">
          <p>
            <strong>{amount(row.on_hand, mark)}</strong> in {row.area ?? "the kitchen"} by the books
          </p>
          <TimeLeft row={row} zone={me.value?.house.zone ?? "UTC"} />
          <HowMuch row={row} typed={typed} exact={exact} />
          <WhyAndWhere
            reason={reason}
            destination={destination}
            destinations={destinationsFor(row, new Date(now.value))}
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
          {words} to waste
        </Button>
      </ActBar>
    </>
  );
}

function lacking(exact: string | null, reason: string): string {
  if (exact === null || sign(exact) <= 0) return "Say how much is lost, as a number above nothing.";
  return reason ? "" : "Say why it is lost.";
}

interface HowMuchProps {
  row: StockRow;
  typed: Signal<string>;
  exact: string | null;
}

/** All of it, unless another amount was weighed or counted. */
function HowMuch({ row, typed, exact }: HowMuchProps) {
  const { unit } = row.on_hand;
  const isMore = exact !== null && sign(less(exact, row.on_hand.value)) > 0;
  return (
    <div class="stack tight">
      <Field
        label={`Only a part, ${unit === "each" ? "pieces" : unit}`}
        hint="Left empty, all of it is lost."
        value={typed}
        inputMode="decimal"
        enterKeyHint="done"
      />
      {isMore && <p>That is more than the books have of it. It is recorded, and asked about.</p>}
    </div>
  );
}
