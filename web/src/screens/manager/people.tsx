import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Problem, problemOf } from "../../door/problem";
import { useReport } from "../../door/reports";
import { ask } from "../../door/request";
import type { PersonRow } from "../../door/rows";
import { mayGive, me } from "../../door/session";
import type { Wire } from "../../door/wire";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Said, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { many } from "../../words/amounts";
import { moment } from "../../words/time";
import { AnswersFor } from "./answers_for";
import { Awaited } from "./awaited";
import { Devices } from "./devices";
import { Newcomer } from "./newcomer";

/** Who works here, who has a password, and letting somebody in or out. */
export function People() {
  const report = useReport<PersonRow>("people");
  return (
    <Place title="People" under="Who works here, and letting somebody in or out">
      <Awaited />
      <Shown report={report} what="Looking for the people">
        {(rows, zone) => (
          <ul class="lines narrow">
            {rows
              .filter((row) => row.active)
              .map((row) => (
                <li key={row.id}>
                  <Person row={row} zone={zone} again={report.again} />
                </li>
              ))}
          </ul>
        )}
      </Shown>
      <Newcomer onDone={() => void report.again()} />
      <Devices />
    </Place>
  );
}

function Person(props: { row: PersonRow; zone: string; again: () => Promise<void> }) {
  const { row, zone, again } = props;
  const wayIn = useSignal<Wire["WayIn"] | null>(null);
  const problem = useSignal<Problem | null>(null);
  const attempt = async (what: () => Promise<unknown>) => {
    problem.value = null;
    try {
      await what();
      await again();
    } catch (error) {
      problem.value = problemOf(error);
    }
  };
  const makeCode = async () => {
    wayIn.value = await ask<Wire["WayIn"]>("/api/ways-in", { person: row.id });
  };
  const end = () => ask<Wire["Ended"]>("/api/sessions/end", { person: row.id });
  return (
    <div class="stack tight">
      <div class="row ends base">
        <span>
          <strong>{row.name}</strong> <span class="soft">{row.role}</span>
        </span>
        <span class="soft small">
          {row.has_password ? "has a password" : "no password yet"}
          {row.sessions > 0 && `, signed in on ${many(row.sessions, "device")}`}
        </span>
      </div>
      <div class="row">
        <Button onClick={() => void attempt(makeCode)}>
          Make a code<span class="unseen"> for {row.name}</span>
        </Button>
        {row.sessions > 0 && row.id !== me.value?.person.id && (
          <Button onClick={() => void attempt(end)}>
            Sign out everywhere<span class="unseen"> {row.name}</span>
          </Button>
        )}
      </div>
      {row.role === "approver" && mayGive("set_answers_for") && (
        <AnswersFor row={row} again={again} />
      )}
      {wayIn.value && (
        <Said kind="done">
          <span>
            The code for {row.name}, shown this once:{" "}
            <strong class="figure big">{wayIn.value.code}</strong>
          </span>
          <span>
            At the door: “I was given a code”. It works once, until{" "}
            {moment(wayIn.value.expires_at, zone, now.value)}.
          </span>
        </Said>
      )}
      {problem.value && <Wrong problem={problem.value} />}
    </div>
  );
}
