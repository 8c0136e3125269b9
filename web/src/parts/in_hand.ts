import type { Signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { inHandOn } from "../door/busy";
import { me } from "../door/session";

/** For as long as a screen stands: something is in hand, and the program does not start again under it. */
export function useInHand(): void {
  useEffect(() => {
    inHandOn.value += 1;
    return () => {
      inHandOn.value -= 1;
    };
  }, []);
}

type Draft = Record<string, Signal<unknown>>;

const keyOf = (name: string): string => `draft ${me.peek()?.person.id ?? ""} ${name}`;

/**
 * Keep in this tab what somebody has filled in, through leaving the screen and through a program that starts
 * again; `fresh` where what is in hand now goes before what was. Answers how to forget it once it is recorded.
 */
export function useDraft(name: string, draft: object, fresh: boolean): () => void {
  const key = keyOf(name);
  const of = draft as Draft;
  const before = useMemo(() => {
    const proposed = written(of);
    const kept = fresh ? null : sessionStorage.getItem(key);
    if (kept) restore(of, JSON.parse(kept) as Record<string, unknown>);
    return proposed;
  }, [key]);
  const now = written(of);
  useEffect(() => {
    if (now !== before) sessionStorage.setItem(key, now);
  }, [now]);
  return () => sessionStorage.removeItem(key);
}

function written(draft: Draft): string {
  const values = Object.entries(draft).map(([name, signal]) => [name, signal.value]);
  return JSON.stringify(Object.fromEntries(values));
}

function restore(draft: Draft, kept: Record<string, unknown>): void {
  for (const [name, signal] of Object.entries(draft)) {
    if (name in kept) signal.value = kept[name];
  }
}
