import { inTheHouse, now } from "../../door/clock";
import { entries, parked, settle, unsent } from "../../door/outbox/entries";
import { restored, send, stuck } from "../../door/outbox/sending";
import { me } from "../../door/session";
import type { Entry } from "../../door/store";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Nothing, Said, Wrong } from "../../parts/said";
import { recordWords } from "../../words/records";
import { inWords, moment } from "../../words/time";

/** What this phone has recorded: what waits, what a person must look at, and what the house has. */
export function Records() {
  const has = entries.value.filter(({ answered }) => answered?.answer.outcome === "applied");
  return (
    <Place
      title="Records of this phone"
      under={`Held by ${me.value?.device?.name ?? "this device"}`}
    >
      <div class="stack narrow">
        {restored.value && <Restored awaited={restored.value.awaited} />}
        {stuck.value && <Wrong problem={stuck.value} />}
        <Waits />
        {parked.value.length > 0 && (
          <section class="stack" aria-label="To look at">
            <h2>To look at</h2>
            {parked.value.map((entry) => (
              <Parked key={entry.id} entry={entry} />
            ))}
          </section>
        )}
        {has.length > 0 && (
          <section class="stack" aria-label="The house has these">
            <h2>The house has these</h2>
            <p class="soft">
              They are held here, too, until a backup has them, and go by themselves then.
            </p>
            <List shown={has.toReversed()} />
          </section>
        )}
      </div>
    </Place>
  );
}

function Restored({ awaited }: { awaited: number }) {
  const others = awaited === 1 ? "1 phone" : `${awaited} phones`;
  return (
    <Said kind="due">
      <strong>The house was restored from a backup.</strong>
      <span>
        It waits for {others} to hand in what they hold. What you record here is kept, and handed in
        after that.
      </span>
    </Said>
  );
}

function Waits() {
  if (unsent.value.length === 0) return <Nothing>Nothing waits. The house has all of it.</Nothing>;
  return (
    <section class="stack" aria-label="Waiting to be sent">
      <h2>Waiting to be sent</h2>
      <p class="soft">Saved on this phone. They go by themselves as soon as the house answers.</p>
      <List shown={unsent.value} />
      <div class="row">
        <Button onClick={() => void send()}>Send now</Button>
        <Button onClick={asFile}>Save as a file</Button>
      </div>
    </section>
  );
}

function List({ shown }: { shown: Entry[] }) {
  return (
    <ul class="lines">
      {shown.map((entry) => (
        <li key={entry.id}>
          <div class="pad">
            <strong>{recordWords(entry.command.kind, entry.words)}</strong>
            <div class="soft">
              {when(entry)} · {entry.command.person}
            </div>
          </div>
        </li>
      ))}
    </ul>
  );
}

const HEADINGS = {
  applied: "",
  kept: "Written down, but not booked: a person is asked",
  refused: "The house did not take it",
  conflict: "Something else was decided meanwhile",
};

function Parked({ entry }: { entry: Entry }) {
  const answer = entry.answered?.answer;
  if (!answer) return null;
  return (
    <Said kind="due">
      <strong>{HEADINGS[answer.outcome]}</strong>
      <span>
        {recordWords(entry.command.kind, entry.words)} · {when(entry)} · {entry.command.person}
      </span>
      {answer.problem && <span>{inWords(answer.problem.detail)}</span>}
      {answer.problem?.todo && <span>{inWords(answer.problem.todo)}</span>}
      <div>
        <Button onClick={() => void settle(entry)}>Put away</Button>
      </div>
    </Said>
  );
}

function when({ savedAt }: Entry): string {
  return moment(inTheHouse(savedAt), me.value?.house.zone ?? "UTC", now.value);
}

/** What waits, a command a line, as `chooseby apply` takes it. */
function asFile(): void {
  const lines = unsent.value.map(({ command }) => `${JSON.stringify(command)}\n`);
  const file = URL.createObjectURL(new Blob(lines, { type: "application/jsonl" }));
  const link = document.createElement("a");
  link.href = file;
  link.download = "records.jsonl";
  link.click();
  // not before the browser has taken it
  setTimeout(() => URL.revokeObjectURL(file), 60_000);
}
