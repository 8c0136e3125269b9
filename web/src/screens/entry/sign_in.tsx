import { useSignal } from "@preact/signals";
import { type Problem, problemOf } from "../../door/problem";
import { signIn } from "../../door/session";
import { Button } from "../../parts/button";
import { Field, Select } from "../../parts/fields";
import { Wrong } from "../../parts/said";

/** Who are you, and your password. */
export function SignIn({ houses, onCode }: { houses: string[]; onCode: () => void }) {
  const name = useSignal("");
  const password = useSignal("");
  const house = useSignal(houses[0] ?? "");
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const enter = async () => {
    busy.value = true;
    problem.value = null;
    try {
      await signIn(name.value.trim(), password.value, house.value);
    } catch (error) {
      problem.value = problemOf(error);
      password.value = "";
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
      {houses.length > 1 && (
        <Select
          label="House"
          value={house}
          options={houses.map((each) => ({ value: each, label: each }))}
        />
      )}
      <Field label="Your name" value={name} autoComplete="username" enterKeyHint="next" required />
      <Field
        label="Password"
        value={password}
        type="password"
        autoComplete="current-password"
        enterKeyHint="done"
        required
      />
      {problem.value && <Wrong problem={problem.value} />}
      <Button kind="main" type="submit" disabled={busy.value}>
        {busy.value ? "Looking" : `Come in${houses.length === 1 ? ` to ${houses[0]}` : ""}`}
      </Button>
      <Button kind="quiet" onClick={onCode}>
        I was given a code
      </Button>
    </form>
  );
}
