import { useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import { Choice, Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { bring } from "./brought";

/** Somebody who works here from now on. */
export function Newcomer({ onDone }: { onDone: () => void }) {
  const name = useSignal("");
  const role = useSignal("porter");
  const add = async () => {
    const answer = await bring({ people: [{ name: name.value.trim(), role: role.value }] });
    if (isGiven(answer)) {
      name.value = "";
      onDone();
    }
    return answer.problem ?? null;
  };
  return (
    <Form send={add} does="Write down" kind="plain" class="card stack narrow">
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
    </Form>
  );
}
