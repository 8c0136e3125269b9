import { useSignal } from "@preact/signals";
import { Button } from "../../parts/button";
import { Field } from "../../parts/fields";
import { CameraKey } from "./camera_key";
import type { LineState } from "./line_state";
import type { OtherCodes } from "./other_code";

interface LabelsOnItProps {
  state: LineState;
  codes: OtherCodes;
}

/** The numbered labels that go on what is in hand: one scan each, and the way back. */
export function LabelsOnIt({ state: { labels }, codes }: LabelsOnItProps) {
  const isOpen = useSignal(false);
  const free = (label: string) => {
    labels.value = labels.value.filter((each) => each !== label);
  };
  return (
    <section class="narrow stack tight" aria-label="Numbered labels">
      {labels.value.map((label) => (
        <div class="row ends" key={label} role="status">
          <span>
            Label <strong class="figure">{label}</strong> goes on it
          </span>
          <Button onClick={() => free(label)}>
            Undo <span class="unseen">label {label}</span>
          </Button>
        </div>
      ))}
      {isOpen.value ? (
        <ByCamera codes={codes} />
      ) : (
        <Button
          onClick={() => {
            isOpen.value = true;
          }}
        >
          Put a numbered label on
        </Button>
      )}
    </section>
  );
}

/** By the camera, or by its figures. */
function ByCamera({ codes }: { codes: OtherCodes }) {
  const typed = useSignal("");
  const enter = async () => {
    const text = typed.value.trim();
    typed.value = "";
    if (text) await codes.take(text);
  };
  return (
    <>
      <CameraKey onCode={codes.take} />
      <form
        class="with-key"
        onSubmit={(event) => {
          event.preventDefault();
          void enter();
        }}
      >
        <Field label="Number on the label" value={typed} inputMode="numeric" enterKeyHint="done" />
        <Button type="submit">Put it on</Button>
      </form>
    </>
  );
}
