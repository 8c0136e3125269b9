import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { now } from "../../door/clock";

/** The pictures taken with what a question is about; a tap shows one large. */
export function Photos({ ids, of }: { ids: string[]; of: string }) {
  return (
    <ul class="pictures">
      {ids.map((id) => (
        <Photo key={id} id={id} of={of} />
      ))}
    </ul>
  );
}

function Photo({ id, of }: { id: string; of: string }) {
  const isMissing = useSignal(false);
  const isLarge = useSignal(false);
  // one that was late is looked for again
  useEffect(() => {
    isMissing.value = false;
  }, [now.value]);
  if (isMissing.value) return <li class="soft">The picture has not arrived yet.</li>;
  return (
    <li class={isLarge.value ? "large" : ""}>
      <button
        type="button"
        class="opens"
        aria-expanded={isLarge.value}
        onClick={() => {
          isLarge.value = !isLarge.value;
        }}
      >
        <img
          src={`/api/pictures/${id}`}
          alt={`Taken with it: ${of}`}
          onError={() => {
            isMissing.value = true;
          }}
        />
      </button>
    </li>
  );
}
