import type { Signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Button } from "../../parts/button";
import { many } from "../../words/amounts";
import { LONGEST, SHORTEST } from "../../words/pin";

interface PinPadProps {
  pin: Signal<string>;
  does: string;
  busy: boolean;
  onDone: () => void;
}

const FIGURES = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

/** Large keys for a PIN, which is shown as dots; a keyboard's keys do the same. */
export function PinPad({ pin, does, busy, onDone }: PinPadProps) {
  const isWhole = pin.value.length >= SHORTEST;
  const add = (figure: string) => {
    if (pin.value.length < LONGEST) pin.value += figure;
  };
  const takeBack = () => {
    pin.value = pin.value.slice(0, -1);
  };
  const done = () => {
    // the figures as they are now: a fast hand is ahead of what is drawn
    if (pin.value.length >= SHORTEST && !busy) onDone();
  };
  useKeyboard({ add, takeBack, done });
  const key = (figure: string) => (
    <Button key={figure} onClick={() => add(figure)}>
      {figure}
    </Button>
  );
  return (
    <section class="stack pin" aria-label="PIN">
      <p class="figure big dots" role="status">
        <span aria-hidden="true">{"●".repeat(pin.value.length).padEnd(SHORTEST, "○")}</span>
        <span class="unseen">{many(pin.value.length, "figure")}</span>
      </p>
      <div class="keypad">
        {FIGURES.map(key)}
        <Button onClick={takeBack}>
          <span aria-hidden="true">⌫</span>
          <span class="unseen">Take back one figure</span>
        </Button>
        {key("0")}
        <Button kind="main" disabled={!isWhole || busy} onClick={done}>
          {does}
        </Button>
      </div>
    </section>
  );
}

interface Keys {
  add: (figure: string) => void;
  takeBack: () => void;
  done: () => void;
}

function useKeyboard({ add, takeBack, done }: Keys): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (/^[0-9]$/.test(event.key)) add(event.key);
      else if (event.key === "Backspace") takeBack();
      // a key of the screen that has the focus takes it itself
      else if (event.key === "Enter" && !(event.target instanceof HTMLButtonElement)) done();
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  });
}
