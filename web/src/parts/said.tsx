import type { ComponentChildren } from "preact";
import type { Problem } from "../door/problem";
import { inWords } from "../words/time";

/** What is wrong, with what, and what to do next. */
export function Wrong({ problem }: { problem: Problem }) {
  return (
    <div class="said wrong" role="alert">
      <strong>{inWords(problem.detail)}</strong>
      {problem.todo && <span>{inWords(problem.todo)}</span>}
      {problem.faults && problem.faults.length > 0 && (
        <span>{problem.faults.length} faults, each with its row below.</span>
      )}
    </div>
  );
}

/** What has been done, or is to be known; told to who cannot see it too. */
export function Said(props: { kind?: "done" | "due" | "plain"; children: ComponentChildren }) {
  return (
    <div class={`said ${props.kind ?? "plain"}`} role="status">
      {props.children}
    </div>
  );
}

/** While something is on its way. */
export function Waiting({ what }: { what: string }) {
  return (
    <p class="soft" role="status">
      {what}
    </p>
  );
}

/** Where there is nothing: why, and what brings something. */
export function Nothing({ children }: { children: ComponentChildren }) {
  return <p class="soft">{children}</p>;
}
