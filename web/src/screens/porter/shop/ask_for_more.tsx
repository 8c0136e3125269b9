import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { useGiving } from "../../../parts/giving";
import { Wrong } from "../../../parts/said";
import { Done } from "./done";

/** Something that is not stocked, asked of the order desk in words. */
export function AskForMore() {
  const words = useSignal("");
  const done = useSignal<{ command: string; words: string } | null>(null);
  const { busy, answer, decide } = useGiving();
  const ask = async () => {
    const said = words.value.trim();
    if (!said) return;
    const given = await decide("ask_for", { words: said }, undefined, said);
    if (!isGiven(given) || !given.id) return;
    done.value = { command: given.id, words: `Asked for: ${said}` };
    words.value = "";
  };
  return (
    <section class="stack" aria-labelledby="ask-for">
      <h2 id="ask-for">Anything else from the order desk?</h2>
      <p class="soft">Bin liners, candles, a new ladle.</p>
      <form
        class="with-key"
        onSubmit={(event) => {
          event.preventDefault();
          void ask();
        }}
      >
        <Field label="In words" value={words} enterKeyHint="done" />
        <Button type="submit" disabled={busy.value}>
          Ask for it
        </Button>
      </form>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {done.value && <Done {...done.value} />}
    </section>
  );
}
