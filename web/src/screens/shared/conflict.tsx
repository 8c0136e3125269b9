import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type BodyOf, type Command, give, type Kind, newCommand } from "../../door/command";
import { settle } from "../../door/outbox/entries";
import type { Problem } from "../../door/problem";
import { me } from "../../door/session";
import type { Entry } from "../../door/store";
import { Button } from "../../parts/button";
import { decided } from "../../words/decided";
import { recordWords } from "../../words/records";
import { moment } from "../../words/time";

type Stands = NonNullable<Problem["stands"]>;

/** What is decided once: nothing is left to decide when somebody else has. */
const ONCE: ReadonlySet<string> = new Set<Kind>(["record_credit", "settle", "tick_off"]);

interface ConflictProps {
  entry: Entry;
  stands: Stands;
  /** When it was decided here, in words. */
  at: string;
}

/** Something else was decided meanwhile: both versions, and the same decision anew on what stands now. */
export function Conflict({ entry, stands, at }: ConflictProps) {
  const busy = useSignal(false);
  const { command, words } = entry;
  const again = async () => {
    busy.value = true;
    await give(anew(command, stands.version), words);
    await settle(entry);
  };
  const zone = me.value?.house.zone ?? "UTC";
  return (
    <>
      <div class="versions">
        <Version
          title="You decided"
          by={`${command.person}, ${at}`}
          what={command}
          lines={decided(command)}
        />
        <Version
          title="What stands now"
          by={`${stands.person}, ${moment(stands.at, zone, now.value)}`}
          what={stands as Pick<Command, "kind">}
          lines={stands.body ? decided(stands as unknown as Command) : []}
        />
      </div>
      <div class="row">
        {!ONCE.has(stands.kind) && (
          <Button onClick={() => void again()} disabled={busy.value}>
            Give again on what stands now
          </Button>
        )}
        <Button onClick={() => void settle(entry)} disabled={busy.value}>
          Put away
        </Button>
      </div>
    </>
  );
}

interface VersionProps {
  title: string;
  by: string;
  what: Pick<Command, "kind">;
  lines: string[];
}

function Version({ title, by, what, lines }: VersionProps) {
  return (
    <article class="stack tight" aria-label={title}>
      <h3>{title}</h3>
      <strong>{recordWords(what.kind, "")}</strong>
      {lines.length > 0 && (
        <ul>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <span class="soft">{by}</span>
    </article>
  );
}

/** The same decision, taken on the version that stands now; a command that was given never changes. */
function anew({ kind, body }: Command, base: number): Command {
  return newCommand(kind, body as BodyOf<Kind>, base);
}
