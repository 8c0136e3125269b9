import type { Signal } from "@preact/signals";
import type { Answer } from "../../door/command";
import type { MenuRow } from "../../door/rows";
import { Wrong } from "../../parts/said";
import { Moved } from "./moved";

interface AnsweredProps {
  answer: Signal<Answer | null>;
  seen: MenuRow;
  stands: MenuRow;
  onLook: () => void;
}

/** What was wrong with a decision, if anything: a menu that has moved is shown in both versions. */
export function Answered({ answer, seen, stands, onLook }: AnsweredProps) {
  const given = answer.value;
  if (!given?.problem) return null;
  if (given.outcome !== "conflict") return <Wrong problem={given.problem} />;
  const look = () => {
    answer.value = null;
    onLook();
  };
  return <Moved seen={seen} stands={stands} onLook={look} />;
}
