import { useSignal } from "@preact/signals";
import type { Problem } from "../../door/problem";
import { Button } from "../../parts/button";
import { Choice, Field } from "../../parts/fields";
import { Wrong } from "../../parts/said";
import { bring } from "./brought";

/** Somebody who works here from now on. */
export function Newcomer({ onDone }: { onDone: () => void }) {
  const name = useSignal("");
  const role = useSignal("porter");
  const problem = useSignal<Problem | null>(null);
  const add = async () => {
    const answer = await bring({ people: [{ name: name.value.trim(), role: role.value }] });
    problem.value = answer.problem ?? null;
    if (answer.outcome !== "applied") return;
    name.value = "";
    onDone();
  };
  return (
    <form
      class="card stack narrow"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <h2>Somebody new</h2>
      <Field label="Name" value={name} required />
      <Choice
        legend="Role"
        value={role}
        options={[
          { value: "porter", label: "porter" },
          { value: "chef", label: "chef" },
          { value: "manager", label: "manager" },
          { value: "approver", label: "household" },
        ]}
      />
      {problem.value && <Wrong problem={problem.value} />}
      <Button type="submit">Write down</Button>
    </form>
  );
}
