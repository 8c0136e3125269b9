import { useSignal } from "@preact/signals";
import { attempted } from "../../door/problem";
import { signIn } from "../../door/session";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { Link } from "../../parts/router";
import { WhichHouse } from "./which_house";

interface SignInProps {
  houses: string[];
  onCode: () => void;
  /** Whether this browser may become one of the house's phones. */
  mayEnrol?: boolean;
}

/** Who are you, and your password. */
export function SignIn({ houses, onCode, mayEnrol }: SignInProps) {
  const name = useSignal("");
  const password = useSignal("");
  const house = useSignal(houses[0] ?? "");
  const enter = async () => {
    const said = password.value;
    const problem = await attempted(() => signIn(name.value.trim(), said, house.value));
    if (problem) password.value = "";
    return problem;
  };
  return (
    <div class="stack">
      <Form
        send={enter}
        does={`Come in${houses.length === 1 ? ` to ${houses[0]}` : ""}`}
        doing="Looking"
      >
        <WhichHouse houses={houses} value={house} />
        <Field
          label="Your name"
          value={name}
          autoComplete="username"
          enterKeyHint="next"
          required
        />
        <Field
          label="Password"
          value={password}
          type="password"
          autoComplete="current-password"
          enterKeyHint="done"
          required
        />
      </Form>
      <Button kind="quiet" onClick={onCode}>
        I was given a code
      </Button>
      {mayEnrol && (
        <Link to="/enrol" class="button quiet">
          I have a code for this phone
        </Link>
      )}
    </div>
  );
}
