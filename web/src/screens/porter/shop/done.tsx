import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { me } from "../../../door/session";
import { Button } from "../../../parts/button";
import { useGiving } from "../../../parts/giving";
import { Said, Wrong } from "../../../parts/said";

interface DoneProps {
  command: string;
  words: string;
}

/** What was recorded, and the way back. */
export function Done({ command, words }: DoneProps) {
  const { busy, answer, decide } = useGiving();
  const isBack = useSignal(false);
  const undo = async () => {
    const body = { command, reason: "recorded by mistake" };
    const given = await decide("correct", body, undefined, words);
    isBack.value = isGiven(given);
  };
  const problem = answer.value?.problem;
  if (isBack.value) return <Said>Taken back: {words}.</Said>;
  return (
    <Said kind="done">
      <strong>{words}</strong>
      <span>{me.value?.device ? "Saved on this phone." : "Recorded."}</span>
      <div>
        <Button onClick={() => void undo()} disabled={busy.value}>
          Undo
        </Button>
      </div>
      {problem && <Wrong problem={problem} />}
    </Said>
  );
}
