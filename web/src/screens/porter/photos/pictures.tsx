import { type Signal, useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { newId } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import { drawn } from "../../../door/photos/taking";
import { attempted, type Problem } from "../../../door/problem";
import { Button } from "../../../parts/button";
import { Wrong } from "../../../parts/said";

/** Pictures of one line. */
const MOST = 6;

/** What was taken of the goods in hand, and the key that takes one more. */
export function Pictures({ taken, of }: { taken: Signal<Taken[]>; of: string }) {
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal(false);
  const take = async (file: File) => {
    busy.value = true;
    problem.value = await attempted(async () => {
      const picture = { id: newId(), bytes: await drawn(file) };
      taken.value = [...taken.value, picture];
    });
    busy.value = false;
  };
  const away = (id: string) => {
    taken.value = taken.value.filter((each) => each.id !== id);
  };
  return (
    <section class="stack" aria-label="Pictures">
      {taken.value.length > 0 && (
        <ul class="pictures">
          {taken.value.map((picture, place) => (
            <Preview key={picture.id} of={picture} words={`${of}, ${place + 1}`} onAway={away} />
          ))}
        </ul>
      )}
      {problem.value && <Wrong problem={problem.value} />}
      {taken.value.length < MOST ? (
        <TakeKey words={busy.value ? "Reading the picture" : "Take a picture"} onFile={take} />
      ) : (
        <p class="soft">{MOST} pictures are as many as one line takes.</p>
      )}
    </section>
  );
}

interface PreviewProps {
  of: Taken;
  words: string;
  onAway: (id: string) => void;
}

function Preview({ of: { id, bytes }, words, onAway }: PreviewProps) {
  const address = useMemo(() => URL.createObjectURL(bytes), [bytes]);
  useEffect(() => () => URL.revokeObjectURL(address), [address]);
  return (
    <li>
      <img src={address} alt={words} />
      <Button onClick={() => onAway(id)}>
        Take it away <span class="unseen">picture: {words}</span>
      </Button>
    </li>
  );
}

function TakeKey({ words, onFile }: { words: string; onFile: (file: File) => Promise<void> }) {
  return (
    <label class="button takes">
      {words}
      <input
        type="file"
        accept="image/*"
        capture="environment"
        onChange={({ currentTarget }) => {
          const file = currentTarget.files?.[0];
          if (!file) return;
          // the same file may be taken again after it was taken away
          void onFile(file).finally(() => {
            currentTarget.value = "";
          });
        }}
      />
    </label>
  );
}
