import { inTheHouse, now } from "../../door/clock";
import { entries, parked, settle, unsent } from "../../door/outbox/entries";
import { restored, sendNow, stuck } from "../../door/outbox/sending";
import { me } from "../../door/session";
import type { Entry } from "../../door/store";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Nothing, Said, Wrong } from "../../parts/said";
import { about } from "../../words/decided";
import { recordWords } from "../../words/records";
import { inWords, moment } from "../../words/time";
import { Conflict } from "./conflict";
import { NotTaken } from "./not_taken";

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
        <NotTaken />
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
  const device = me.value?.device?.id;
  const own = unsent.value.filter((entry) => entry.device === device);
  const others = unsent.value.filter((entry) => entry.device !== device);
  return (
    <>
      {own.length === 0 && <Nothing>Nothing waits. The house has all of it.</Nothing>}
      {own.length > 0 && (
        <section class="stack" aria-label="Waiting to be sent">
          <h2>Waiting to be sent</h2>
          <p class="soft">
            Saved on this phone. They go by themselves as soon as the house answers.
          </p>
          <List shown={own} />
          <div class="row">
            <Button onClick={() => void sendNow()}>Send now</Button>
            <Button onClick={() => asFile(own, "records.jsonl")}>Save as a file</Button>
          </div>
        </section>
      )}
      {others.length > 0 && (
        <section class="stack" aria-label="Of before">
          <h2>Of before this phone was enrolled again</h2>
          <p class="soft">
            Saved here when this phone had another name in the house, and never handed in. They do
            not go by themselves: save them as a file, and the manager takes it in.
          </p>
          <List shown={others} />
          <div>
            <Button onClick={() => asFile(others, "records-of-before.jsonl")}>
              Save these as a file
            </Button>
          </div>
        </section>
      )}
    </>
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
  const { command, words } = entry;
  const { problem } = answer;
  const of = words || about(command);
  return (
    <Said kind="due">
      <strong>{HEADINGS[answer.outcome]}</strong>
      <span>
        {recordWords(command.kind, inWords(of))} · {when(entry)} · {command.person}
      </span>
      {problem?.stands ? (
        <Conflict entry={entry} stands={problem.stands} at={when(entry)} />
      ) : (
        <>
          {problem && <span>{inWords(problem.detail)}</span>}
          {problem?.todo && <span>{inWords(problem.todo)}</span>}
          <div>
            <Button onClick={() => void settle(entry)}>Put away</Button>
          </div>
        </>
      )}
    </Said>
  );
}

function when({ savedAt }: Entry): string {
  return moment(inTheHouse(savedAt), me.value?.house.zone ?? "UTC", now.value);
}

/** What waits of these, a command a line, as `chooseby apply` takes it. */
function asFile(shown: Entry[], name: string): void {
  const lines = shown.map(({ command }) => `${JSON.stringify(command)}\n`);
  const file = URL.createObjectURL(new Blob(lines, { type: "application/jsonl" }));
  const link = document.createElement("a");
  link.href = file;
  link.download = name;
  link.click();
  // not before the browser has taken it
  setTimeout(() => URL.revokeObjectURL(file), 60_000);
}
