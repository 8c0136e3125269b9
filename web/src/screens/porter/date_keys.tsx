import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { Button } from "../../parts/button";
import { DaysLeft } from "../../parts/days_left";
import { Choice } from "../../parts/fields";
import { daysOn, endOf, keyedDate, lastDay, packDate } from "../../words/pack_date";
import { keepsTo } from "./doubts";
import type { Facts } from "./line_facts";
import type { LineState } from "./line_state";

interface DateKeysProps {
  facts: Facts;
  state: LineState;
  today: string;
  zone: string;
}

const KINDS = [
  { value: "use_by", label: "Use by" },
  { value: "best_before", label: "Best before" },
  { value: "none", label: "No date" },
];

/** The date on the pack: its kind by name, then the date with a few large keys. */
export function DateKeys({ facts, state, today, zone }: DateKeysProps) {
  const digits = useSignal("");
  const id = useId();
  const proposed = keepsTo(facts, today);
  const date = state.date.value;
  const key = (typed: string) => {
    digits.value = typed.replace(/\D/g, "").slice(0, 6);
    state.date.value = keyedDate(digits.value, today);
  };
  const set = (day: string) => {
    digits.value = "";
    state.date.value = day;
  };
  return (
    <section class="stack tight three dated" aria-label="Date on the pack">
      <Choice legend="Date on the pack" value={state.kind} options={KINDS} />
      {state.kind.value !== "none" && (
        <>
          {proposed && !date && digits.value === "" && (
            <Button onClick={() => set(proposed)}>The pack says {packDate(proposed)}</Button>
          )}
          {date ? (
            <Dated
              date={date}
              kind={state.kind.value}
              zone={zone}
              set={set}
              clear={() => key("")}
            />
          ) : (
            <>
              <div class="field">
                <label for={id}>Day and month, as four digits</label>
                <input
                  id={id}
                  class="figure"
                  type="text"
                  inputMode="none"
                  autoComplete="off"
                  value={digits}
                  aria-describedby={`${id}-hint`}
                  onInput={(event) => key(event.currentTarget.value)}
                />
                <span class="hint" id={`${id}-hint`}>
                  {hint(digits.value)}
                </span>
              </div>
              <Keypad
                onKey={(digit) => key(digits.value + digit)}
                onBack={() => key(digits.value.slice(0, -1))}
              />
            </>
          )}
        </>
      )}
      <p class="soft small">The label in your hand, local food law and the chef come first.</p>
    </section>
  );
}

interface DatedProps {
  date: string;
  kind: string;
  zone: string;
  set: (day: string) => void;
  clear: () => void;
}

/** A date that stands, in words to be held against the pack, and the keys to mend it. */
function Dated({ date, kind, zone, set, clear }: DatedProps) {
  const isDay = date.length > 7;
  return (
    <>
      <p class="figure big" role="status">
        {packDate(date)}
      </p>
      <DaysLeft
        until={endOf(lastDay(date), zone)}
        kind={kind === "best_before" ? "best_before" : "use_by"}
        zone={zone}
      />
      <div class="three-keys">
        {isDay && (
          <>
            <Button onClick={() => set(daysOn(date, -1))}>A day earlier</Button>
            <Button onClick={() => set(daysOn(date, 1))}>A day later</Button>
          </>
        )}
        <Button onClick={clear}>Another date</Button>
      </div>
    </>
  );
}

function hint(digits: string): string {
  if (digits.length === 4 || digits.length === 6) return "There is no such day. Read it again.";
  return "1903 is 19 March; 190328 with its year; 000328 where the pack has only the month.";
}

const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

function Keypad({ onKey, onBack }: { onKey: (digit: string) => void; onBack: () => void }) {
  const digit = (one: string) => (
    <Button key={one} onClick={() => onKey(one)}>
      {one}
    </Button>
  );
  return (
    <div class="keypad">
      {DIGITS.map(digit)}
      <span />
      {digit("0")}
      <Button onClick={onBack}>
        <span aria-hidden="true">⌫</span>
        <span class="unseen">Take the last digit back</span>
      </Button>
    </div>
  );
}
