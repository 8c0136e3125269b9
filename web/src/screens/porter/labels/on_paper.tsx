import { type Signal, useComputed, useSignal } from "@preact/signals";
import { Field, Select } from "../../../parts/fields";
import { OWN, ownPaper, PAPERS, type Paper } from "./paper";
import { chosePaper, firstFree, used } from "./remembered";

/** The paper that is chosen, and its first free label. */
export interface OnPaper {
  choice: Signal<string>;
  own: Signal<string>;
  start: Signal<string>;
}

export function usePaper(): OnPaper {
  const choice = useSignal(used.value.paper);
  const own = useSignal(used.value.own);
  const start = useSignal(String(startOf(choice.value, own.value)));
  return { choice, own, start };
}

/** The chosen paper; null where its measures are none yet. */
export function paperOf({ choice, own }: OnPaper): Paper | null {
  return paperNamed(choice.value, own.value);
}

function paperNamed(choice: string, own: string): Paper | null {
  if (choice === OWN) return ownPaper(own);
  return PAPERS.find(({ measures }) => measures === choice) ?? null;
}

function startOf(choice: string, own: string): number {
  const paper = paperNamed(choice, own);
  return paper ? firstFree(paper) : 1;
}

/** The first free label as a number; null where it is none of the sheet's. */
export function startAt(on: OnPaper): number | null {
  const paper = paperOf(on);
  const start = Number(on.start.value);
  return paper && Number.isInteger(start) && start >= 1 && start <= paper.onPage ? start : null;
}

/** Sheet or roll, and where a begun sheet goes on. */
export function PaperFields({ on }: { on: OnPaper }) {
  const paper = useComputed(() => paperOf(on));
  const chosen = () => {
    chosePaper(on.choice.value, on.own.value);
    on.start.value = String(startOf(on.choice.value, on.own.value));
  };
  const onPage = paper.value?.onPage ?? 1;
  return (
    <>
      <Select
        label="Sheet or roll"
        value={on.choice}
        options={[
          ...PAPERS.map(({ measures, words }) => ({ value: measures, label: words })),
          { value: OWN, label: "Other measures" },
        ]}
        onChange={chosen}
      />
      {on.choice.value === OWN && (
        <Field
          label="Measures in mm"
          value={on.own}
          hint="A sheet as a4/2x5/90x50 (columns x rows, then one label), a roll as 60x40."
          wrong={paper.value ? undefined : "Measure one label: its width, then its height."}
          onChange={chosen}
        />
      )}
      {onPage > 1 && (
        <Field
          label="First free label on the sheet"
          value={on.start}
          inputMode="numeric"
          hint={`Counted from the left and from the top, 1 to ${onPage}.`}
          wrong={startAt(on) === null ? `A number from 1 to ${onPage}.` : undefined}
        />
      )}
    </>
  );
}
