import { effect, signal } from "@preact/signals";
import { me } from "../../door/session";

/** A line that was recorded on this device, so that it can be told and taken back. */
export interface Recorded {
  command: string;
  batch: string;
  order: string | null;
  item: string;
  pack_id: string | null;
  verdict: "accept" | "hold" | "refuse";
  /** How much, in words: `4 x 1 l carton`. */
  words: string;
  /** The date in words, the area, the reason: what else was said. */
  more: string[];
  /** What the house said against it, where it was kept without effect. */
  kept: string | null;
}

const MOST = 60;

/** What this person recorded on this device while it was open, newest first. */
export const recorded = signal<Recorded[]>([]);

/** What was taken back last, in words. */
export const struck = signal("");

let whose = "";

effect(() => {
  const person = me.value?.person.id ?? "";
  if (person === whose) return;
  whose = person;
  recorded.value = person ? read(person) : [];
});

function read(person: string): Recorded[] {
  const kept = sessionStorage.getItem(`recorded ${person}`);
  return kept ? (JSON.parse(kept) as Recorded[]) : [];
}

function keep(all: Recorded[]): void {
  recorded.value = all.slice(0, MOST);
  if (whose) sessionStorage.setItem(`recorded ${whose}`, JSON.stringify(recorded.value));
}

export function note(one: Recorded): void {
  struck.value = "";
  keep([one, ...recorded.value]);
}

/** Strike out what was taken back. */
export function strike(gone: Recorded): void {
  keep(recorded.value.filter((one) => one.command !== gone.command));
  struck.value = `Taken back: ${gone.words} ${gone.item}.`;
}
