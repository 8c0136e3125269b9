import { useLayoutEffect, useRef } from "preact/hooks";
import { SEPARATOR } from "../../door/codes/separator";
import { Burst } from "./burst";

type Filled = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** A field, and what stood in it. */
interface Held {
  field: Filled;
  value: string;
}

function isFilled(target: EventTarget | null): target is Filled {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  );
}

/** The character a key stands for; scanners send the separator of GS1 codes as Ctrl+]. */
function characterOf(event: KeyboardEvent): string | null {
  if (event.ctrlKey && event.key === "]") return SEPARATOR;
  if (event.ctrlKey || event.altKey || event.metaKey) return null;
  return event.key.length === 1 ? event.key : null;
}

/**
 * Hear a handheld scanner wherever the focus is. What a person types goes where it always goes; what a
 * scanner typed into another field is taken out of it again, once its Enter has told what it was.
 */
export function useHandheld(onCode: (text: string) => void): void {
  const tell = useRef(onCode);
  tell.current = onCode;
  // before the screen is painted: a scan that comes as soon as it stands is heard
  useLayoutEffect(() => {
    const burst = new Burst<Held | null>();
    const heard = (event: KeyboardEvent) => {
      if (event.key === "Enter") {
        const said = burst.end(event.timeStamp);
        if (said === null) return;
        event.preventDefault();
        event.stopPropagation();
        if (said.before) putBack(said.before);
        tell.current(said.text);
        return;
      }
      const character = characterOf(event);
      if (character === null) {
        // scanners send Shift for capitals and Control for the separator
        if (!["Shift", "Control"].includes(event.key)) burst.forget();
        return;
      }
      const held = isFilled(event.target)
        ? { field: event.target, value: event.target.value }
        : null;
      burst.add(character, event.timeStamp, held);
      // a code's space or letters must not press the button that happens to have the focus
      const presses = !held && burst.isFast;
      if (presses || character === SEPARATOR) event.preventDefault();
    };
    window.addEventListener("keydown", heard, { capture: true });
    return () => window.removeEventListener("keydown", heard, { capture: true });
  }, []);
}

function putBack({ field, value }: Held): void {
  if (field.value === value) return;
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  if (field instanceof HTMLSelectElement)
    field.dispatchEvent(new Event("change", { bubbles: true }));
}
