import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { Problem } from "../door/problem";
import { Button } from "./button";
import { Wrong } from "./said";

interface FormProps {
  /** Sends what is filled in; answers what is wrong with it, or nothing. */
  send: () => Promise<Problem | null>;
  does: string;
  doing?: string;
  kind?: "main" | "plain";
  class?: string;
  children: ComponentChildren;
}

/** A few fields and the one key that sends them; what is wrong stands above the key. */
export function Form(props: FormProps) {
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const send = async () => {
    busy.value = true;
    problem.value = null;
    problem.value = await props.send();
    busy.value = false;
  };
  return (
    <form
      class={props.class ?? "stack"}
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      {props.children}
      {problem.value && <Wrong problem={problem.value} />}
      {problem.value?.faults?.map((fault) => (
        <p key={JSON.stringify(fault)}>
          {fault.column}: {fault.problem} {fault.todo}
        </p>
      ))}
      <Button kind={props.kind ?? "main"} type="submit" disabled={busy.value}>
        {busy.value ? (props.doing ?? props.does) : props.does}
      </Button>
    </form>
  );
}
