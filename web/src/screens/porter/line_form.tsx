import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import type { Taken } from "../../door/photos/keeping";
import { BegunBefore } from "../../parts/begun";
import { ActBar, Button } from "../../parts/button";
import { useDraft } from "../../parts/draft";
import { Field } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { useInHand } from "../../parts/in_hand";
import { go, Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { dayOf } from "../../words/time";
import { AmountKeys } from "./amount_keys";
import { CodeDoubts } from "./code_doubts";
import { DateKeys } from "./date_keys";
import { acceptsShort, doubts, refused, verdictOf } from "./doubts";
import { HowWarm } from "./how_warm";
import type { InHand } from "./in_hand";
import type { Instead } from "./instead";
import { LabelsOnIt } from "./labels_on_it";
import { amountWords } from "./line_body";
import type { Facts } from "./line_facts";
import { type LineState, useLine, type Verdict } from "./line_state";
import { orderedWords } from "./line_words";
import { OtherCode, useOtherCodes } from "./other_code";
import { PicturesKey } from "./pictures_key";
import { type Recording, useRecording } from "./recording";
import { VerdictKeys } from "./verdict_keys";
import { WhatCame } from "./what_came";
import { WhereTo } from "./where_to";

interface LineFormProps {
  facts: Facts;
  hand: InHand | null;
  instead: Instead | null;
}

/** One line in hand, from the top: how much, what date, how warm, where to, and the verdict. */
export function LineForm({ facts, hand, instead }: LineFormProps) {
  const state = useLine(facts, hand, instead);
  const pictures = useSignal<Taken[]>([]);
  const draft = useDraft(location.pathname, state, pictures, Boolean(hand ?? instead));
  const asksWhatCame = useSignal(false);
  const { zone } = facts;
  const codes = useOtherCodes(facts, state);
  useInHand();
  const recording = useRecording();
  const { busy, made } = recording;
  const today = dayOf(new Date(now.value), zone);
  const verdict = verdictOf(facts, state, today);
  const back = facts.order_id ? `/goods-in/${facts.order_id}` : "/goods-in";
  const record = async () => {
    await draft.ready;
    if (!(await recording.record(facts, state, verdict, today, pictures.value))) return;
    draft.forget();
    go(back, { replace: true });
  };
  const askWhatCame = () => {
    asksWhatCame.value = !asksWhatCame.value;
  };
  if (asksWhatCame.value) return <WhatCame facts={facts} onBack={askWhatCame} />;
  return (
    <>
      <Place title={facts.item.item} under={orderedWords(facts, state)}>
        <form
          id="line"
          class="narrow stack line"
          onSubmit={(event) => {
            event.preventDefault();
            void record();
          }}
        >
          <BegunBefore draft={draft} />
          <CodeDoubts hand={hand} />
          <OtherCode codes={codes} />
          <fieldset class="stack" disabled={busy.value || made.value !== null}>
            <legend class="unseen">What came</legend>
            <AmountKeys facts={facts} state={state} />
            <DateKeys facts={facts} state={state} today={today} zone={zone} />
            <HowWarm facts={facts} state={state} />
            <WhereTo facts={facts} state={state} />
            <Field
              label="Lot, as on the pack"
              value={state.lot}
              enterKeyHint="done"
              hint={
                facts.item.high_risk ? "High-risk food: a recall finds it by its lot." : undefined
              }
            />
            <VerdictKeys
              facts={facts}
              state={state}
              acceptsShort={acceptsShort(facts, state, today)}
              onOther={askWhatCame}
            />
            <PicturesKey taken={pictures} />
          </fieldset>
          <Doubts of={verdict === "refuse" ? refused(facts, state) : doubts(facts, state, today)} />
          <Hindrance recording={recording} />
        </form>
        {verdict !== "refuse" && <LabelsOnIt state={state} codes={codes} />}
        <p>
          <Link class="touch" to={back}>
            Leave it for now
          </Link>
        </p>
      </Place>
      <ActBar>
        <Button kind="main" type="submit" form="line" disabled={busy.value}>
          {actWords(recording, facts, state, verdict)}
        </Button>
      </ActBar>
    </>
  );
}

function Doubts({ of }: { of: string[] }) {
  if (of.length === 0) return null;
  return (
    <Said kind="due">
      {of.map((doubt) => (
        <span key={doubt}>{doubt}</span>
      ))}
    </Said>
  );
}

/** Why the line is not recorded yet: something is missing, or the house said no or nothing. */
function Hindrance({ recording: { lacks, problem } }: { recording: Recording }) {
  if (problem.value) return <Wrong problem={problem.value} />;
  if (!lacks.value) return null;
  return (
    <div class="said wrong" role="alert">
      <strong>{lacks.value}</strong>
    </div>
  );
}

const DOES = { accept: "Accept", hold: "Hold", refuse: "Refuse" };

function actWords(
  { busy, made }: Recording,
  facts: Facts,
  state: LineState,
  verdict: Verdict,
): string {
  if (busy.value) return "Recording";
  if (made.value) return "Send the same again";
  const whom = verdict === "hold" ? " for the chef" : "";
  return `${DOES[verdict]} ${amountWords(facts, state)}${whom}`;
}
