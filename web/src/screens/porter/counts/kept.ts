import { type Signal, signal, useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { draftOf, forgetDraft, keepDraft } from "../../../door/drafts";
import { type Draft, EMPTY } from "./sheet";

const nameOf = (area: string): string => `count ${area}`;

/** A count that is begun, kept on this device line by line. */
export interface KeptDraft {
  /** Null until this device has been asked what was begun. */
  draft: Signal<Draft | null>;
  change: (to: Draft) => void;
  /** It is recorded, or given up. */
  forget: () => void;
}

/** The count of a storage area that this person has begun on this device, if there is one. */
export function useKeptDraft(area: string): KeptDraft {
  const made = useMemo(() => keptDraft(area), [area]);
  useEffect(() => void made.read(), [made]);
  return made;
}

export function keptDraft(area: string): KeptDraft & { read: () => Promise<void> } {
  const draft = signal<Draft | null>(null);
  const read = async () => {
    const before = await draftOf<Draft>(nameOf(area));
    draft.value ??= before ?? EMPTY;
  };
  const change = (to: Draft) => {
    draft.value = to;
    void keepDraft(nameOf(area), to);
  };
  const forget = () => {
    draft.value = EMPTY;
    void forgetDraft(nameOf(area));
  };
  return { draft, change, forget, read };
}

/** The storage areas of which a count is begun. */
export function useDrafts(areas: string[]): Signal<string[]> {
  const begun = useSignal<string[]>([]);
  useEffect(() => {
    const look = async () => {
      const all = await Promise.all(areas.map((area) => draftOf<Draft>(nameOf(area))));
      begun.value = areas.filter((_, at) => (all[at]?.entries.length ?? 0) > 0);
    };
    void look();
  }, [areas.join()]);
  return begun;
}
