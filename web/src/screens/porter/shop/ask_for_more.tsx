import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Field } from "../../../parts/fields";

/** Something that is not stocked, asked of the order desk in words. */
export function AskForMore() {
  const words = useSignal("");
  const doing = useDoing("/out-of");
  const ask = async () => {
    const said = words.value.trim();
    if (!said) return;
    if (isGiven(await doing.act("ask_for", { words: said }, said))) words.value = "";
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
        <Button type="submit" disabled={doing.busy.value}>
          Ask for it
        </Button>
      </form>
      <Done doing={doing} />
    </section>
  );
}
