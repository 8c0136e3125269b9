import { effect, signal } from "@preact/signals";
import { me } from "../../door/session";

/** That a driver left, as it was recorded on this device: it can be taken back. */
export interface DriverLeft {
  order: string;
  command: string;
  /** What did not come, in words. */
  short: string[];
  /** What the house said against it, where it was kept without effect. */
  kept: string | null;
}

/** What this person recorded on this device in this tab, newest first. */
export const driversLeft = signal<DriverLeft[]>([]);

let whose = "";

effect(() => {
  const person = me.value?.person.id ?? "";
  if (person === whose) return;
  whose = person;
  const before = person && sessionStorage.getItem(keyOf(person));
  driversLeft.value = before ? (JSON.parse(before) as DriverLeft[]) : [];
});

function keyOf(person: string): string {
  return `drivers left ${person}`;
}

function keep(all: DriverLeft[]): void {
  driversLeft.value = all;
  if (whose) sessionStorage.setItem(keyOf(whose), JSON.stringify(all));
}

export function noteLeft(one: DriverLeft): void {
  keep([one, ...driversLeft.value]);
}

/** It was taken back. */
export function strikeLeft(gone: DriverLeft): void {
  keep(driversLeft.value.filter((one) => one.command !== gone.command));
}
