import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Standing, standing } from "../../door/device";
import { type Problem, problemOf } from "../../door/problem";
import { returned } from "../../door/pulse";
import { type Front, front, wasIn } from "../../door/session";
import { Button } from "../../parts/button";
import { Waiting, Wrong } from "../../parts/said";
import { ComeIn } from "./come_in";
import { FirstManager } from "./first_manager";
import { SignIn } from "./sign_in";
import { Whose } from "./whose";

type Found = Front & Standing;

/** Before anybody is known here: what the house needs first. */
export function Entry() {
  const found = useSignal<Found | null>(null);
  const problem = useSignal<Problem | null>(null);
  const look = () => {
    Promise.all([front(), standing()]).then(
      ([needed, what]) => {
        found.value = { ...needed, ...what };
        problem.value = what.takenOut;
      },
      (error: unknown) => {
        problem.value = problemOf(error);
      },
    );
  };
  useEffect(look, [returned.value]);
  const said = found.value;
  return (
    <main class="place narrow" id="place" tabIndex={-1}>
      <header>
        <h1>Chooseby</h1>
        <div class="soft">{said?.device?.device.name ?? "The stock room that knows the menu"}</div>
      </header>
      {problem.value && <Wrong problem={problem.value} />}
      {!said && !problem.value && <Waiting what="Asking the house" />}
      {said && said.needs !== "sign_in" && <FirstManager founding={said.needs === "house"} />}
      {said?.needs === "sign_in" && <WaysIn found={said} onLook={look} />}
    </main>
  );
}

type Way = "whose" | "password" | "code";

/** The ways in: by PIN on a phone of the house, by password, and by a code the first time. */
function WaysIn({ found, onLook }: { found: Found; onLook: () => void }) {
  const way: Signal<Way> = useSignal(location.pathname === "/way-in" ? "code" : "whose");
  const take = (next: Way) => () => {
    way.value = next;
  };
  const { device, houses } = found;
  if (way.value === "code") return <ComeIn houses={houses} onBack={take("password")} />;
  if (!device) return <SignIn houses={houses} onCode={take("code")} mayEnrol />;
  if (way.value === "whose") {
    return (
      <>
        <Whose of={device} first={wasIn.value} onEntered={() => {}} onLook={onLook} />
        <Button kind="quiet" onClick={take("password")}>
          Come in with a password
        </Button>
      </>
    );
  }
  return (
    <>
      <SignIn houses={houses} onCode={take("code")} />
      <Button kind="quiet" onClick={take("whose")}>
        Come in by PIN
      </Button>
    </>
  );
}
