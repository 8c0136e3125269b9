import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Command, give, newCommand, newId } from "../../door/command";
import type { Problem } from "../../door/problem";
import { ActBar, Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { go, Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { dayOf } from "../../words/time";
import { AmountKeys } from "./amount_keys";
import { DateKeys } from "./date_keys";
import { doubts, verdictOf } from "./doubts";
import type { InHand } from "./in_hand";
import { amountWords, missing, receiveBody } from "./line_body";
import type { Facts } from "./line_facts";
import { type LineState, useLine, type Verdict } from "./line_state";
import { orderedWords, toldOf } from "./line_words";
import { OtherCode } from "./other_code";
import { note } from "./recorded";
import { VerdictKeys } from "./verdict_keys";
import { WhereTo } from "./where_to";

interface LineFormProps {
  facts: Facts;
  hand: InHand | null;
  zone: string;
}

/** One line in hand, from the top: how much, what date, how warm, where to, and the verdict. */
export function LineForm({ facts, hand, zone }: LineFormProps) {
  const state = useLine(facts, hand);
  const today = dayOf(new Date(now.value), zone);
  const said = useSignal<string | null>(null);
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  // once it is made it stays as it is until it is answered, so that trying again sends the same bytes
  const made = useSignal<{ command: Command; batch: string } | null>(null);
  const back = facts.order_id ? `/goods-in/${facts.order_id}` : "/goods-in";
  const verdict = verdictOf(facts, state, today);
  const against = doubts(facts, state, today);

  const record = async () => {
    said.value = made.value ? null : missing(facts, state);
    if (said.value) return;
    made.value ??= newLine(facts, state, verdict);
    const { command, batch } = made.value;
    problem.value = null;
    busy.value = true;
    const answer = await give(command);
    busy.value = false;
    if (answer.outcome === "applied" || answer.outcome === "kept") {
      note({
        ...toldOf(facts, state, verdict),
        command: command.id,
        batch,
        kept: keptWords(answer.problem),
      });
      go(back, { replace: true });
      return;
    }
    problem.value = answer.problem ?? null;
    if (answer.problem?.code !== "no_answer") made.value = null;
  };

  return (
    <>
      <Place title={facts.item.item} under={orderedWords(facts)}>
        <form
          id="line"
          class="narrow stack line"
          onSubmit={(event) => {
            event.preventDefault();
            void record();
          }}
        >
          <OtherCode facts={facts} state={state} />
          <fieldset class="stack" disabled={busy.value || made.value !== null}>
            <legend class="unseen">What came</legend>
            <AmountKeys facts={facts} state={state} />
            <DateKeys facts={facts} state={state} today={today} zone={zone} />
            <WhereTo facts={facts} state={state} />
            <Field label="Lot, as on the pack" value={state.lot} enterKeyHint="done" />
            <VerdictKeys facts={facts} state={state} />
          </fieldset>
          {against.length > 0 && verdict !== "refuse" && (
            <Said kind="due">
              {against.map((doubt) => (
                <span key={doubt}>{doubt}</span>
              ))}
            </Said>
          )}
          {said.value && (
            <div class="said wrong" role="alert">
              <strong>{said.value}</strong>
            </div>
          )}
          {problem.value && <Wrong problem={problem.value} />}
          <p>
            <Link class="touch" to={back}>
              Leave it for now
            </Link>
          </p>
        </form>
      </Place>
      <ActBar>
        <Button kind="main" type="submit" form="line" disabled={busy.value}>
          {busy.value
            ? "Recording"
            : made.value
              ? "Send the same again"
              : `${DOES[verdict]} ${amountWords(facts, state)}${verdict === "hold" ? " for the chef" : ""}`}
        </Button>
      </ActBar>
    </>
  );
}

function newLine(
  facts: Facts,
  state: LineState,
  verdict: Verdict,
): { command: Command; batch: string } {
  const batch = newId();
  return { batch, command: newCommand("receive", receiveBody(facts, state, verdict, batch)) };
}

const DOES = { accept: "Accept", hold: "Hold", refuse: "Refuse" };

function keptWords(problem: Problem | undefined): string | null {
  return problem ? `${problem.detail} It is kept as it came, and a person is asked.` : null;
}
