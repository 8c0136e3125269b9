import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Problem, problemOf } from "../../door/problem";
import { type Front, front } from "../../door/session";
import { Waiting, Wrong } from "../../parts/said";
import { ComeIn } from "./come_in";
import { FirstManager } from "./first_manager";
import { SignIn } from "./sign_in";

/** Before anybody is known here: what the house needs first. */
export function Entry() {
  const found = useSignal<Front | null>(null);
  const problem = useSignal<Problem | null>(null);
  const coming = useSignal(location.pathname === "/way-in");
  useEffect(() => {
    front().then(
      (said) => {
        found.value = said;
      },
      (error: unknown) => {
        problem.value = problemOf(error);
      },
    );
  }, []);
  const said = found.value;
  return (
    <main class="place narrow" id="place">
      <header>
        <h1>Chooseby</h1>
        <div class="soft">The stock room that knows the menu</div>
      </header>
      {problem.value && <Wrong problem={problem.value} />}
      {!said && !problem.value && <Waiting what="Asking the house" />}
      {said && said.needs !== "sign_in" && <FirstManager founding={said.needs === "house"} />}
      {said?.needs === "sign_in" &&
        (coming.value ? (
          <ComeIn
            houses={said.houses}
            onBack={() => {
              coming.value = false;
            }}
          />
        ) : (
          <SignIn
            houses={said.houses}
            onCode={() => {
              coming.value = true;
            }}
          />
        ))}
    </main>
  );
}
