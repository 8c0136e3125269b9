import { useSignal } from "@preact/signals";
import { attempted } from "../../door/problem";
import { comeIn } from "../../door/session";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { OwnPassword } from "./own_password";
import { WhichHouse } from "./which_house";

/** A person's first time: the code that a manager gave, and a password of their own. */
export function ComeIn({ houses, onBack }: { houses: string[]; onBack: () => void }) {
  const name = useSignal("");
  const code = useSignal("");
  const password = useSignal("");
  const house = useSignal(houses[0] ?? "");
  const enter = () =>
    attempted(() => comeIn(name.value.trim(), code.value.trim(), password.value, house.value));
  return (
    <div class="stack">
      <p>Your manager made a code for you. It works once; then you have a password of your own.</p>
      <Form send={enter} does="Come in">
        <WhichHouse houses={houses} value={house} />
        <Field
          label="Your name"
          value={name}
          autoComplete="username"
          enterKeyHint="next"
          required
        />
        <Field
          label="Code"
          value={code}
          autoComplete="one-time-code"
          enterKeyHint="next"
          required
          big
        />
        <OwnPassword value={password} />
      </Form>
      <Button kind="quiet" onClick={onBack}>
        I have a password
      </Button>
    </div>
  );
}
