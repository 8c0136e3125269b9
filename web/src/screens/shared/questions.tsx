import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { QuestionRow } from "../../door/rows";
import { mayGive, role } from "../../door/session";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { useGiving } from "../../parts/giving";
import { Link } from "../../parts/router";
import { Nothing, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { sentence } from "../../words/menus";
import { inWords, moment } from "../../words/time";
import { Photos } from "./photos";
import { ShortLines } from "./short_lines";

/** The kind of the question about a meal of which nobody recorded that it was served. */
const UNSERVED = "unserved";

/** The kind of the question about a menu for which another number was said. */
const COVERS_SAID = "covers_said";

/** What the records contradict and a person must settle, those of one's own hands first. */
export function Questions() {
  const report = useReport<QuestionRow>("questions");
  return (
    <Place title="Questions" under="What the records contradict, and a person must settle">
      <Shown report={report} what="Looking for questions">
        {(rows, zone) => {
          const mine = rows.filter((row) => row.owner === role.value);
          const others = rows.filter((row) => row.owner !== role.value);
          if (rows.length === 0) return <Nothing>Nothing is open. The books agree.</Nothing>;
          return (
            <div class="stack narrow">
              {[...mine, ...others].map((row) => (
                <Question key={row.question} row={row} zone={zone} />
              ))}
            </div>
          );
        }}
      </Shown>
    </Place>
  );
}

function Question({ row, zone }: { row: QuestionRow; zone: string }) {
  const { busy, answer, decide } = useGiving();
  const settles = role.value === row.owner || role.value === "manager";
  const settle = (said: string) =>
    decide(
      "settle",
      { question: row.question, answer: said },
      row.version || undefined,
      inWords(row.recorded),
    );
  return (
    <article class="card stack">
      <div class="row ends base">
        <strong>For the {row.owner}</strong>
        <span class="soft">since {moment(row.opened_at, zone, now.value)}</span>
      </div>
      <p>{inWords(row.recorded)}</p>
      <p>
        <span class="soft">Against it: </span>
        {inWords(row.against)}
      </p>
      {row.short.length > 0 && <ShortLines lines={row.short} zone={zone} />}
      {row.photos.length > 0 && <Photos ids={row.photos} of={inWords(row.recorded)} />}
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      {row.kind === UNSERVED && mayGive("serve") && (
        <Link class="touch" to={`/serving/${row.about}`}>
          What was otherwise, or left over
        </Link>
      )}
      {row.kind === COVERS_SAID && mayGive("change_covers") && (
        <Link class="touch" to={`/menus/${row.about}`}>
          Change the covers of this menu
        </Link>
      )}
      {settles ? (
        <div class="row">
          {row.answers.map((said) => (
            <Button key={said} onClick={() => void settle(said)} disabled={busy.value}>
              {sentence(said)}
            </Button>
          ))}
        </div>
      ) : (
        <p class="soft">The {row.owner} or a manager settles it.</p>
      )}
    </article>
  );
}
