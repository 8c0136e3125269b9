import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { isGiven } from "../../../door/command";
import { sign } from "../../../door/sums";
import { AsOf } from "../../../parts/as_of";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Select } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { go, Link } from "../../../parts/router";
import { Nothing, Said, Wrong } from "../../../parts/said";
import { many } from "../../../words/amounts";
import { COUNTED } from "./areas";
import { countBody, type Difference, differences, isSaid } from "./comparing";
import { type Area, toSecond } from "./one_area";
import { changed, type Draft, type Entry } from "./sheet";
import { batchWords, entryWords, much, nameOf } from "./words";

interface ComparingProps {
  here: Area;
  draft: Draft;
}

/** What was counted held against the books: what differs, what is asked of it, and recording the count. */
export function Comparing({ here, draft }: ComparingProps) {
  const doing = useDoing(COUNTED);
  const { row, lines, kept } = here;
  const all = differences(lines, draft, row.area);
  const open = here.asked.length - draft.entries.length;
  const record = async () => {
    const words = `${row.area}, ${many(draft.entries.length, "line")}`;
    const answer = await doing.act("count", countBody(row.area_id, row.area, lines, draft), words);
    if (!isGiven(answer) && answer.outcome !== "kept") return;
    kept.forget();
    go("/counts", { replace: true });
  };
  if (draft.entries.length === 0) {
    return (
      <Place title={`${row.area}: compared`}>
        <Nothing>Nothing of it is counted yet.</Nothing>
        <Back here={here} />
      </Place>
    );
  }
  return (
    <>
      <Place title={`${row.area}: compared`} under={agreeWords(draft.entries.length - all.length)}>
        {here.asOf && <AsOf at={here.asOf} zone={here.zone} />}
        {open > 0 && (
          <Said>
            <span>{many(open, "line")} not counted: the books keep what they have there.</span>
          </Said>
        )}
        <ul class="stack" aria-label="What differs">
          {all.map((each) => (
            <li key={each.line.key} class="card stack">
              <One each={each} here={here} draft={draft} />
            </li>
          ))}
        </ul>
        {doing.problem.value && <Wrong problem={doing.problem.value} />}
        <Back here={here} />
      </Place>
      <ActBar>
        <Button
          kind="main"
          disabled={doing.busy.value || !isSaid(all)}
          onClick={() => void record()}
        >
          {isSaid(all) ? "Record the count" : "Answer what is asked first"}
        </Button>
      </ActBar>
    </>
  );
}

function Back({ here }: { here: Area }) {
  return (
    <p>
      <Link class="touch" to={here.path}>
        Back to the sheet
      </Link>
    </p>
  );
}

function agreeWords(count: number): string {
  return count === 1 ? "1 line agrees" : `${count} lines agree`;
}

interface OneProps extends ComparingProps {
  each: Difference;
}

function One({ each, here, draft }: OneProps) {
  const { line, entry, asks } = each;
  const say = (to: Partial<Entry>) => here.kept.change(changed(draft, line.key, to));
  return (
    <>
      <div>
        <h2>{nameOf(line)}</h2>
        <span class="soft">{batchWords(line)}</span>
      </div>
      {asks === "again" ? (
        <p>
          {entryWords(entry, line)} written down. The books have another amount; they follow once it
          was counted a second time, best by somebody else.
        </p>
      ) : (
        <Both each={each} />
      )}
      {asks === "taken_out" && (
        <Answers legend="Was it taken out already, for a meal of today or tomorrow?">
          <Button onClick={() => say({ takenOut: true })}>Yes, taken out</Button>
          <Button onClick={() => say({ takenOut: false })}>No, it is missing</Button>
        </Answers>
      )}
      {asks === "again" && (
        <Answers legend="How does it go on?">
          <Button onClick={() => go(toSecond(here, line.key))}>Count it again</Button>
          <Button onClick={() => say({ left: true })}>Somebody else will</Button>
        </Answers>
      )}
      {asks !== "again" && entry.left && <LeftWords />}
      {asks === "why" && !entry.left && <Why entry={entry} say={say} />}
      {asks !== "taken_out" && entry.takenOut !== null && (
        <p>
          {entry.takenOut ? "Taken out already." : "Not taken out: it is missing."}{" "}
          <Button kind="quiet" onClick={() => say({ takenOut: null })}>
            Change
          </Button>
        </p>
      )}
      {asks === "why" && entry.first === null && !entry.left && (
        <div>
          <Button kind="quiet" onClick={() => go(toSecond(here, line.key))}>
            Count it again
          </Button>
        </div>
      )}
    </>
  );
}

function Both({ each: { line, entry, stood, by } }: { each: Difference }) {
  const less = sign(by) < 0;
  const off = less ? by.slice(1) : by;
  return (
    <dl class="facts">
      {entry.first !== null && (
        <>
          <dt>First count</dt>
          <dd>{much(entry.first, line)}</dd>
        </>
      )}
      <dt>{entry.first === null ? "Counted" : "Second count"}</dt>
      <dd>{entryWords(entry, line)}</dd>
      <dt>In the books</dt>
      <dd>{much(stood, line)}</dd>
      <dt>{less ? "Missing" : "More than that"}</dt>
      <dd>
        <strong>{much(off, line)}</strong>
      </dd>
    </dl>
  );
}

function LeftWords() {
  return (
    <p>
      Left for somebody else to count: the books stay as they are, and it stands under the questions
      until then.
    </p>
  );
}

const REASONS = [
  "use was not recorded",
  "waste was not recorded",
  "wrong unit: case or single",
  "given away",
  "stands elsewhere",
];

/** Why it differs, where somebody knows; else the chef is asked later. */
function Why({ entry, say }: { entry: Entry; say: (to: Partial<Entry>) => void }) {
  const value = useSignal(entry.reason);
  return (
    <Select
      label="Why, if you know"
      value={value}
      options={[
        { value: "", label: "not known: the chef is asked" },
        ...REASONS.map((reason) => ({ value: reason, label: reason })),
      ]}
      onChange={() => say({ reason: value.value })}
    />
  );
}

function Answers({ legend, children }: { legend: string; children: ComponentChildren }) {
  return (
    <fieldset class="stack tight">
      <legend class="legend">{legend}</legend>
      <div class="large-keys">{children}</div>
    </fieldset>
  );
}
