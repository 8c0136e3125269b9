import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { Button } from "./button";

interface PanelProps {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}

/** Something that opens over the screen, keeps the keyboard within it, and closes with Escape. */
export function Panel({ title, onClose, children }: PanelProps) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const before = document.activeElement;
    box.current?.showModal();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog ref={box} aria-labelledby={id} onClose={onClose}>
      <div class="stack">
        <div class="row ends">
          <h2 id={id}>{title}</h2>
          <Button onClick={() => box.current?.close()}>Close</Button>
        </div>
        {children}
      </div>
    </dialog>
  );
}
