import { now } from "../../door/clock";
import type { MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { answerLines } from "../../words/answers";
import { moment } from "../../words/time";

/** On the card of a menu: what the household chose, or from when silence is an answer. */
export function AnswerWord({ row, zone }: { row: MenuRow; zone: string }) {
  const { answer, shown, answer_by } = row;
  if (answer) {
    return (
      <span>
        <strong>the household chose</strong> ({answer.by}): {answerLines(answer).join("; ")}
      </span>
    );
  }
  if (!shown || !answer_by) return null;
  const by = moment(answer_by, zone, now.value);
  return Date.parse(answer_by) <= now.value ? (
    <strong>no answer: the first dish of each course holds since {by}</strong>
  ) : (
    <span class="soft">
      {shown.read_at ? "shown and opened" : "shown, not opened yet"}; without an answer the first
      dishes hold from {by}
    </span>
  );
}

interface AnswerSaidProps {
  row: MenuRow;
  zone: string;
  /** Whether it came after the dishes below were picked. */
  isNew: boolean;
  onTake: () => void;
}

/** Where a menu is confirmed: the household's answer whole, taken over below. */
export function AnswerSaid({ row, zone, isNew, onTake }: AnswerSaidProps) {
  const { answer } = row;
  if (!answer) {
    return row.shown ? (
      <p>
        <AnswerWord row={row} zone={zone} />
      </p>
    ) : null;
  }
  return (
    <div class="said done" role="status">
      <strong>
        The household chose ({answer.by}, {moment(answer.at, zone, now.value)})
      </strong>
      <ul>
        {answerLines(answer).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {answer.earlier && <span>This menu was changed since they answered.</span>}
      {isNew && (
        <>
          <span>It came while you were choosing.</span>
          <Button onClick={onTake}>Take their answer over</Button>
        </>
      )}
    </div>
  );
}
