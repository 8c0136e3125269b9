import type { Problem } from "../../door/problem";
import type { CodeRow } from "../../door/rows";
import { Link } from "../../parts/router";
import { Said, Wrong } from "../../parts/said";
import { dayOf, near } from "../../words/time";
import type { Key } from "./keys";

/** What became of a code or a name at the door. */
export type Answer =
  | { kind: "unreadable"; text: string; problem: Problem }
  | { kind: "nothing"; text: string; row: CodeRow }
  | { kind: "label"; label: string; item: string }
  | { kind: "which"; keys: Key[]; choose: (key: Key) => void };

interface CodeAnswerProps {
  answer: Answer;
  zone: string;
  now: number;
}

export function CodeAnswer({ answer, zone, now }: CodeAnswerProps) {
  switch (answer.kind) {
    case "unreadable":
      return <Wrong problem={withLetters(answer.problem)} />;
    case "nothing":
      return (
        <div class="said wrong" role="alert">
          <strong>Nothing in this house carries the code {answer.text}.</strong>
          <span>
            {LETTERS}
            {keeps(answer.row) && ` The ${keeps(answer.row)} of the code is kept for it.`}
          </span>
        </div>
      );
    case "label":
      return (
        <Said kind="due">
          <strong>
            {answer.label} is a label of this house: {answer.item}.
          </strong>
          <span>
            It is in the house already.{" "}
            <Link class="touch" to={`/shelf/${encodeURIComponent(answer.label)}`}>
              See it on the shelf
            </Link>
          </span>
        </Said>
      );
    case "which":
      return <Which keys={answer.keys} choose={answer.choose} zone={zone} now={now} />;
  }
}

const LETTERS = "Type three letters of the item's name instead.";

/** Whatever is wrong with a code, the name helps; unless the house itself does not answer. */
function withLetters(problem: Problem): Problem {
  return problem.code === "no_answer" ? problem : { ...problem, todo: LETTERS };
}

function keeps({ read }: CodeRow): string {
  if (read.lot && read.date_mark?.date) return "lot and date";
  if (read.date_mark?.date) return "date";
  return read.lot ? "lot" : "";
}

/** A code on a pack and its case, or an item on several lines: a person says which, with large keys. */
function Which(props: { keys: Key[]; choose: (key: Key) => void; zone: string; now: number }) {
  const { keys, choose, zone, now } = props;
  const orders = new Set(keys.map(({ order }) => order?.order));
  return (
    <section class="said due" aria-labelledby="which">
      <h2 id="which">{keys[0]?.item}: which is it?</h2>
      <div class="large-keys">
        {keys.map((key) => (
          <button
            class="button large"
            type="button"
            key={`${key.order?.order} ${key.pack_id ?? key.item_id}`}
            onClick={() => choose(key)}
          >
            <span>{key.pack ?? key.item}</span>
            <span class="small">
              {key.line?.pack_id === key.pack_id ? "as ordered" : "not what was ordered"}
              {orders.size > 1 &&
                key.order &&
                `, ${key.order.supplier} ${near(dayOf(key.order.at, zone), dayOf(new Date(now), zone))}`}
            </span>
          </button>
        ))}
      </div>
    </section>
  );
}
