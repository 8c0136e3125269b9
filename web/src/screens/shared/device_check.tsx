import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Ability, ability, askToLast } from "../../door/ability";
import { me } from "../../door/session";
import { ActBar, Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Said, Waiting } from "../../parts/said";
import { type Finding, findings, STATE_WORDS, verdict } from "../../words/ability";

/** What this device can do for the kitchen, and what to do about the rest; for strangers, too. */
export function DeviceCheck() {
  const found = useSignal<Ability | null>(null);
  const refused = useSignal(false);
  const look = async () => {
    found.value = null;
    found.value = await ability();
  };
  const keep = async () => {
    refused.value = !(await askToLast());
    await look();
  };
  useEffect(() => void look(), []);
  const seen = found.value;
  return (
    <>
      <Place title="What this device can do">
        {seen ? (
          <>
            <Said kind={verdict(seen).good ? "done" : "due"}>
              <strong>{verdict(seen).says}</strong>
            </Said>
            <ul class="lines narrow">
              {findings(seen).map((each) => (
                <Line key={each.what} finding={each} />
              ))}
            </ul>
            {!seen.lasting && seen.encrypted && (
              <div class="stack narrow">
                <Button onClick={() => void keep()}>Ask the browser to keep it</Button>
                {refused.value && (
                  <p role="status">
                    The browser has not promised. It often does once the house is on the home
                    screen.
                  </p>
                )}
              </div>
            )}
            {!me.value && (
              <div>
                <Link to="/" class="button">
                  To the house
                </Link>
              </div>
            )}
          </>
        ) : (
          <Waiting what="Looking at this device" />
        )}
      </Place>
      <ActBar>
        <Button kind="main" disabled={!seen} onClick={() => void look()}>
          Look again
        </Button>
      </ActBar>
    </>
  );
}

const CLASS = { good: "done", missing: "wrong", weak: "" };

function Line({ finding }: { finding: Finding }) {
  return (
    <li class="stack tight">
      <span class="row ends">
        <strong>{finding.what}</strong>
        <span class={`state ${CLASS[finding.state]}`}>
          <Form state={finding.state} />
          {STATE_WORDS[finding.state]}
        </span>
      </span>
      <span>{finding.says}</span>
      {finding.todo && <span class="soft">{finding.todo}</span>}
    </li>
  );
}

const FORMS = {
  good: "M2 8L6 12L14 3",
  missing: "M3 3L13 13M13 3L3 13",
  weak: "M8 2V9.5M8 12.5V14",
};

/** A form for each state, so that nothing is said by colour alone. */
function Form({ state }: { state: Finding["state"] }) {
  return (
    <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
      <path d={FORMS[state]} fill="none" stroke="currentColor" stroke-width="2.5" />
    </svg>
  );
}
