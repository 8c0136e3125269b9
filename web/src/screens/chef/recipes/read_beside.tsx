import { Button } from "../../../parts/button";
import { amount } from "../../../words/amounts";
import { DOUBTS, type DraftLine } from "./writing";

interface ReadBesideProps {
  line: DraftLine;
  onChange: (part: Partial<DraftLine>) => void;
}

const SURENESS = { sure: "Sure", doubtful: "Doubtful", unknown: "Unknown" } as const;

/** What stood in the document, how sure it is, what it could be; and the key that decides it. */
export function ReadBeside({ line, onChange }: ReadBesideProps) {
  const { read } = line;
  if (!read) return null;
  return (
    <div class="stack tight">
      <p>
        <strong>
          {line.decided && read.sureness !== "sure" ? "Decided" : SURENESS[read.sureness]}:
        </strong>{" "}
        <q>{read.written}</q>
      </p>
      {!line.decided && (
        <>
          <ul class="soft">
            {read.amount && (
              <li>
                Read as {read.amount}
                {read.measured &&
                  amount(read.measured) !== read.amount &&
                  `, ${amount(read.measured)}`}
                {read.note && `; beside it: ${read.note}`}
              </li>
            )}
            {read.doubts.map((doubt) => (
              <li key={doubt}>{DOUBTS[doubt]}</li>
            ))}
          </ul>
          <fieldset class="keys">
            <legend class="unseen">What {read.written} is</legend>
            {read.candidates.map((item) => (
              <Button
                key={item}
                pressed={line.ingredient === item}
                onClick={() => onChange({ ingredient: item })}
              >
                {item}
              </Button>
            ))}
          </fieldset>
          <Button
            disabled={line.ingredient.trim() === ""}
            onClick={() => onChange({ decided: true })}
          >
            {line.ingredient.trim() === "" ? "Say what it is first" : "That is it"}
          </Button>
        </>
      )}
    </div>
  );
}
