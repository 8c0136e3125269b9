import { useEffect, useRef } from "preact/hooks";
import { SEPARATOR } from "../../words/find";
import { Burst } from "./burst";

type Filled = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

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
  useEffect(() => {
    const burst = new Burst();
    let field: Filled | null = null;
    let before = "";
    const heard = (event: KeyboardEvent) => {
      if (event.key === "Enter") {
        const text = burst.end(event.timeStamp);
        if (text === null) return;
        event.preventDefault();
        event.stopPropagation();
        if (field) putBack(field, before);
        tell.current(text);
        return;
      }
      const character = characterOf(event);
      if (character === null) return;
      if (burst.add(character, event.timeStamp)) {
        field = isFilled(event.target) ? event.target : null;
        before = field?.value ?? "";
      }
      // a code's space or letters must not press the button that happens to have the focus
      if (!field && burst.isFast) event.preventDefault();
      if (character === SEPARATOR) event.preventDefault();
    };
    window.addEventListener("keydown", heard, { capture: true });
    return () => window.removeEventListener("keydown", heard, { capture: true });
  }, []);
}

function putBack(field: Filled, value: string): void {
  if (field.value === value) return;
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  if (field instanceof HTMLSelectElement)
    field.dispatchEvent(new Event("change", { bubbles: true }));
}
