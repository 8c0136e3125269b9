import { signal } from "@preact/signals";

/** That a driver left, as it was recorded on this device: it can be taken back. */
export interface DriverLeft {
  order: string;
  command: string;
  /** What did not come, in words. */
  short: string[];
  /** What the house said against it, where it was kept without effect. */
  kept: string | null;
}

/** Since this page was opened, newest first. */
export const driversLeft = signal<DriverLeft[]>([]);

export function noteLeft(one: DriverLeft): void {
  driversLeft.value = [one, ...driversLeft.value];
}

export function strikeLeft(gone: DriverLeft): void {
  driversLeft.value = driversLeft.value.filter((one) => one.command !== gone.command);
}
