import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { Panel } from "./panel";

interface OpensProps {
  /** The figure as it stands on the screen. */
  figure: ComponentChildren;
  /** What it is of, as the title of what opens. */
  title: string;
  children: ComponentChildren;
}

/** A figure that opens to what it is made of. */
export function Opens({ figure, title, children }: OpensProps) {
  const open = useSignal(false);
  return (
    <>
      <button
        type="button"
        class="opens"
        aria-haspopup="dialog"
        onClick={() => {
          open.value = true;
        }}
      >
        {figure}
      </button>
      {open.value && (
        <Panel
          title={title}
          onClose={() => {
            open.value = false;
          }}
        >
          {children}
        </Panel>
      )}
    </>
  );
}
