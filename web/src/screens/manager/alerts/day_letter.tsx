import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import type { Reports } from "../../../door/rows";
import { mayGive, me } from "../../../door/session";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { useGiving } from "../../../parts/giving";
import { Opens } from "../../../parts/opens";
import { Said, Wrong } from "../../../parts/said";
import { listed } from "../../../words/amounts";
import { hourOf } from "./words";

/** When the day's letter goes out, and changing that; what presses is told at once, whatever the hour. */
export function DayLetter({ told }: { told: Reports["alerts"] | null }) {
  if (!told) return null;
  const { digest_at: at, letters_to: to, no_letters_to: declined } = told;
  return (
    <section class="stack tight" aria-label="By e-mail">
      <h2>By e-mail</h2>
      <p>
        {at ? `What is open goes out each day at ${at}.` : "No letter of the day goes out."} A last
        call, and what was missed, goes at once. {whom(to)}
      </p>
      <Own to={to} declined={declined} />
      {mayGive("set_digest") && (
        <div>
          <Opens figure="Another hour" title="The day's letter">
            <Hour at={at} />
          </Opens>
        </div>
      )}
    </section>
  );
}

function whom(to: string[]): string {
  if (!me.value?.house.sends_mail) return "As long as the house has no mail server, nothing goes.";
  return to.length > 0 ? `Letters go to ${listed(to)}.` : "Nobody is told by letter.";
}

/** Declining the letters oneself, and wanting them again. */
function Own({ to, declined }: { to: string[]; declined: string[] }) {
  const { answer, decide, busy } = useGiving();
  const own = me.value?.person.name ?? "";
  const hasDeclined = declined.includes(own);
  if (!mayGive("set_own_letters") || !(hasDeclined || to.includes(own))) return null;
  const set = () => void decide("set_own_letters", { wanted: hasDeclined });
  return (
    <div class="stack tight">
      {hasDeclined && <p>You have declined letters. What presses stands here all the same.</p>}
      <div>
        <Button disabled={busy.value} onClick={set}>
          {hasDeclined ? "Letters to me again" : "No letters to me"}
        </Button>
      </div>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
    </div>
  );
}

function Hour({ at }: { at: string }) {
  const { answer, decide } = useGiving();
  const hour = useSignal(at);
  const wrong = useSignal<string | undefined>(undefined);
  const send = async () => {
    const written = hour.value.trim();
    const found = written ? hourOf(written) : null;
    wrong.value = written && !found ? "Write an hour as 7:30 or 18:00." : undefined;
    if (wrong.value) return null;
    return (await decide("set_digest", { at: found })).problem ?? null;
  };
  return (
    <Form send={send} does="Keep it" kind="plain">
      {answer.value && isGiven(answer.value) && <Said kind="done">The hour is kept.</Said>}
      <Field
        label="At what hour of the house"
        value={hour}
        wrong={wrong.value}
        hint="As 7:30; empty: none. It goes to chefs and managers with an address under People, where the house has a mail server."
      />
    </Form>
  );
}
