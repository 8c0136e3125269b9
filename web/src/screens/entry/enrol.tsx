import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { enrol } from "../../door/device";
import { attempted, type Problem } from "../../door/problem";
import { me, signOut } from "../../door/session";
import { Field } from "../../parts/fields";
import { Form } from "../../parts/form";
import { Place } from "../../parts/frame";
import { go, Link } from "../../parts/router";
import { Waiting, Wrong } from "../../parts/said";

/** A phone becomes one of the house's: by the code in the address that was scanned, or by hand. */
export function Enrol() {
  const code = useSignal("");
  const busy = useSignal(false);
  const problem = useSignal<Problem | null>(null);
  const become = () =>
    attempted(async () => {
      await enrol(code.value.trim());
      // who was in here was in on a browser that was nobody's
      if (me.value) await signOut();
      go("/", { replace: true });
    });
  const takeUp = async () => {
    code.value = decodeURIComponent(location.hash.slice(1));
    // a code does not stay in the address, where others would see it
    history.replaceState(null, "", location.pathname);
    busy.value = true;
    problem.value = await become();
    busy.value = false;
  };
  useEffect(() => {
    const look = () => {
      if (location.hash.length > 1) void takeUp();
    };
    look();
    addEventListener("hashchange", look);
    return () => removeEventListener("hashchange", look);
  }, []);
  if (busy.value) {
    return (
      <Place title="A code for this phone">
        <Waiting what="Taking up the code" />
      </Place>
    );
  }
  return (
    <Place title="A code for this phone" under="This phone becomes one of the house's">
      <div class="stack narrow">
        {problem.value && <Wrong problem={problem.value} />}
        <p>
          A manager makes the code on the screen People. With it this phone keeps what is recorded
          until the house has it, and whoever has it comes in by PIN.
        </p>
        <Form send={become} does="This phone belongs to the house" doing="Asking the house">
          <Field label="Code" value={code} autoComplete="one-time-code" required big />
        </Form>
        <Link to="/" class="button quiet">
          Not now
        </Link>
      </div>
    </Place>
  );
}
