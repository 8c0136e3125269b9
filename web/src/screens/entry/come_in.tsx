import { useSignal } from "@preact/signals";
import { type Problem, problemOf } from "../../door/problem";
import { comeIn } from "../../door/session";
import { Button } from "../../parts/button";
import { Field, Select } from "../../parts/fields";
import { Wrong } from "../../parts/said";

/** A person's first time: the code that a manager gave, and a password of their own. */
export function ComeIn({ houses, onBack }: { houses: string[]; onBack: () => void }) {
  const name = useSignal("");
  const code = useSignal("");
  const password = useSignal("");
  const house = useSignal(houses[0] ?? "");
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const enter = async () => {
    busy.value = true;
    problem.value = null;
    try {
      await comeIn(name.value.trim(), code.value.trim(), password.value, house.value);
    } catch (error) {
      problem.value = problemOf(error);
    } finally {
      busy.value = false;
    }
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <p>Your manager made a code for you. It works once; then you have a password of your own.</p>
      {houses.length > 1 && (
        <Select
          label="House"
          value={house}
          options={houses.map((each) => ({ value: each, label: each }))}
        />
      )}
      <Field label="Your name" value={name} autoComplete="username" enterKeyHint="next" required />
      <Field
        label="Code"
        value={code}
        autoComplete="one-time-code"
        enterKeyHint="next"
        required
        big
      />
      <Field
        label="A password of your own"
        value={password}
        type="password"
        autoComplete="new-password"
        enterKeyHint="done"
        hint="Ten letters or more; a few words in a row are good."
        required
      />
      {problem.value && <Wrong problem={problem.value} />}
      <Button kind="main" type="submit" disabled={busy.value}>
        Come in
      </Button>
      <Button kind="quiet" onClick={onBack}>
        I have a password
      </Button>
    </form>
  );
}
