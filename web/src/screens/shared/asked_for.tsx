import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { AskedForRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { serviceName } from "../../parts/day_words";
import { useGiving } from "../../parts/giving";
import { Nothing, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { moment } from "../../words/time";

/** What the back door asks for and nobody has seen to, with the one key that says it is done. */
export function AskedFor() {
  const report = useReport<AskedForRow>("asked-for");
  return (
    <section class="stack" aria-labelledby="asked-for">
      <h2 id="asked-for">Asked for by the back door</h2>
      <Shown report={report} what="Looking at what is asked for">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>Nothing is asked for.</Nothing>
          ) : (
            <ul class="lines" aria-label="Asked for">
              {rows.map((row) => (
                <One key={row.asked} row={row} zone={zone} />
              ))}
            </ul>
          )
        }
      </Shown>
    </section>
  );
}

function One({ row, zone }: { row: AskedForRow; zone: string }) {
  const { busy, answer, decide } = useGiving();
  const done = () =>
    decide("tick_off", { asked: row.asked }, row.version, row.item ?? row.words ?? "");
  return (
    <li class="stack tight">
      <div class="row ends">
        <span class="stack tight">
          <strong>{row.item ? `We are out of ${row.item}` : row.words}</strong>
          {row.item && row.words && <span>{row.words}</span>}
          {row.item && <span class="small">{wantedWords(row, zone)}</span>}
          <span class="soft small">
            {row.person}, {moment(row.at, zone, now.value)}
          </span>
        </span>
        {mayGive("tick_off") && (
          <Button onClick={() => void done()} disabled={busy.value}>
            Done <span class="unseen">: {row.item ?? row.words}</span>
          </Button>
        )}
      </div>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
    </li>
  );
}

/** Who wants it first, and what the books say all the same. */
function wantedWords(row: AskedForRow, zone: string): string {
  if (row.counted === null) return "The house has not heard of it yet.";
  const wanted =
    row.wanted_by && row.wanted_for
      ? `Wanted by ${moment(row.wanted_by, zone, now.value)} for ${serviceName(row.wanted_for)}.`
      : "No menu that is chosen wants it.";
  const has = row.on_hand ? ` The books say ${amount(row.on_hand)}.` : "";
  return wanted + has;
}
