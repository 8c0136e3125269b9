import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { mayGive } from "../../../door/session";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { useGiving } from "../../../parts/giving";
import { Opens } from "../../../parts/opens";
import { Said } from "../../../parts/said";
import { hourOf } from "./words";

/** When the day's letter goes out, and changing that; what presses is told at once, whatever the hour. */
export function DayLetter({ at }: { at: string | undefined }) {
  if (at === undefined) return null;
  return (
    <section class="stack tight" aria-label="By e-mail">
      <h2>By e-mail</h2>
      <p>
        {at
          ? `What is open goes to chef and manager each day at ${at}.`
          : "No letter of the day goes out."}{" "}
        A last call, and what was missed, goes at once.
      </p>
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
