import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Standing, standing } from "../../door/device";
import { type Problem, problemOf } from "../../door/problem";
import { returned } from "../../door/pulse";
import { Place } from "../../parts/frame";
import { go } from "../../parts/router";
import { Nothing, Waiting, Wrong } from "../../parts/said";
import { Whose } from "./whose";

/** The phone goes into other hands; until they have given their PIN it stays in the same. */
export function HandOver() {
  const found = useSignal<Standing | null>(null);
  const problem = useSignal<Problem | null>(null);
  const look = () => {
    standing().then(
      (said) => {
        found.value = said;
        problem.value = said.takenOut;
      },
      (error: unknown) => {
        problem.value = problemOf(error);
      },
    );
  };
  useEffect(look, [returned.value]);
  const device = found.value?.device;
  return (
    <Place title="Somebody else">
      {problem.value && <Wrong problem={problem.value} />}
      {device && (
        <Whose
          of={device}
          first={null}
          onEntered={() => go("/", { replace: true })}
          onLook={look}
        />
      )}
      {!found.value && !problem.value && <Waiting what="Asking the house" />}
      {found.value && !device && !problem.value && (
        <Nothing>This browser is none of the house's phones; sign out instead.</Nothing>
      )}
    </Place>
  );
}
