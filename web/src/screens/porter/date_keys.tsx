import { type Signal, useSignal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import { daysOn, endOf, lastDay } from "../../door/house_days";
import { Button } from "../../parts/button";
import { DaysLeft } from "../../parts/days_left";
import { Choice } from "../../parts/fields";
import { few } from "../../words/amounts";
import { keyedDate, packDate } from "../../words/pack_date";
import { inWords } from "../../words/time";
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
  // the key that was pressed is gone with what it brought; the focus goes on to that
  const pressed = useSignal(false);
  const proposed = keepsTo(facts, today);
  const date = state.date.value;
  const isKeyed = digits.value !== "";
  const key = (typed: string) => {
    digits.value = typed.replace(/\D/g, "").slice(0, 6);
    state.date.value = keyedDate(digits.value, today);
  };
  const set = (day: string | null) => {
    pressed.value = true;
    digits.value = "";
    state.date.value = day;
  };
  return (
    <section class="stack tight three dated" aria-label="Date on the pack">
      <Choice legend="Date on the pack" value={state.kind} options={KINDS} />
      {state.kind.value !== "none" && (
        <>
          {proposed && !date && !isKeyed && (
            <Button onClick={() => set(proposed)}>The pack says {packDate(proposed)}</Button>
          )}
          {date && (
            <Dated
              date={date}
              kind={state.kind.value}
              zone={zone}
              takesFocus={pressed.value && !isKeyed}
            />
          )}
          {date && !isKeyed ? (
            <Mend date={date} set={set} />
          ) : (
            <Digits digits={digits} date={date} onDigits={key} takesFocus={pressed.value} />
          )}
        </>
      )}
      {facts.line && facts.line.wanted.length > 0 && (
        <p class="small">
          It has to keep for {few(facts.line.wanted.map((w) => inWords(w.service)))}.
        </p>
      )}
      <p class="soft small">
        Of a mixed case, the shortest date. The label in your hand, local food law and the chef come
        first.
      </p>
    </section>
  );
}

interface DatedProps {
  date: string;
  kind: string;
  zone: string;
  takesFocus: boolean;
}

/** A date that stands, in words to be held against the pack, and how long that leaves. */
function Dated({ date, kind, zone, takesFocus }: DatedProps) {
  const words = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (takesFocus) words.current?.focus({ preventScroll: true });
  }, [takesFocus]);
  return (
    <>
      <p class="figure big" role="status" tabIndex={-1} ref={words}>
        {packDate(date)}
      </p>
      <DaysLeft
        until={endOf(lastDay(date), zone)}
        kind={kind === "best_before" ? "best_before" : "use_by"}
        zone={zone}
      />
    </>
  );
}

/** The keys that mend a date which a code brought, or which was proposed. */
function Mend({ date, set }: { date: string; set: (day: string | null) => void }) {
  return (
    <div class="three-keys">
      {date.length > 7 && (
        <>
          <Button onClick={() => set(daysOn(date, -1))}>A day earlier</Button>
          <Button onClick={() => set(daysOn(date, 1))}>A day later</Button>
        </>
      )}
      <Button onClick={() => set(null)}>Another date</Button>
    </div>
  );
}

interface DigitsProps {
  digits: Signal<string>;
  date: string | null;
  onDigits: (typed: string) => void;
  takesFocus: boolean;
}

/** The digits of a date, from the keys of a desk or from large ones under the thumb. */
function Digits({ digits, date, onDigits, takesFocus }: DigitsProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (takesFocus) field.current?.focus({ preventScroll: true });
  }, [takesFocus]);
  return (
    <>
      <div class="field">
        <label for={id}>Day and month, as four digits</label>
        <input
          id={id}
          ref={field}
          class="figure"
          type="text"
          inputMode="none"
          autoComplete="off"
          value={digits}
          aria-describedby={`${id}-hint`}
          onInput={(event) => onDigits(event.currentTarget.value)}
        />
        <span class="hint" id={`${id}-hint`}>
          {hint(digits.value, date)}
        </span>
      </div>
      <Keypad
        onKey={(digit) => onDigits(digits.value + digit)}
        onBack={() => onDigits(digits.value.slice(0, -1))}
      />
    </>
  );
}

function hint(digits: string, date: string | null): string {
  if (date) return digits.length === 4 ? "Another year? Two more digits." : "";
  if (digits.startsWith("00") && digits.length < 6) return "The month, and two digits of the year.";
  if (digits.length === 4 || digits.length === 6) return "There is no such day. Read it again.";
  return "1903 is 19 March. Where the pack has only a month, 00 for the day.";
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
