import { type DBSchema, deleteDB, type IDBPDatabase, openDB } from "idb";
import type { Command } from "./command";
import type { Problem } from "./problem";
import type { Wire } from "./wire";

/** What one report last said, as the house said it. */
export interface Kept {
  /** The path and query it is asked at. */
  address: string;
  /** The JSON that came. */
  said: unknown;
  /** When it came, by this device's clock, in milliseconds. */
  at: number;
}

/** What the house answered a command of the outbox, and when. */
export interface Answered {
  answer: Wire["Answer"];
  /** Which life of the house's database it was: another after a restore. */
  epoch: string;
  /** The house's time in that reply. */
  at: string;
}

/** A command of this device's outbox, and what became of it. */
export interface Entry {
  /** The command's own id. */
  id: string;
  /** The device whose outbox it is of: cleared storage is a new device. */
  device: string;
  /** Its number: 1, 2, 3... without gaps (SY1). */
  n: number;
  command: Command;
  /** When it was saved here, by this device's clock, in milliseconds. */
  savedAt: number;
  /** What is told of it to people: `Whole milk, 4 l, accepted`. */
  words: string;
  /** The house's first answer; null until there is one. */
  answered: Answered | null;
  /** What the house had answered before it was restored from a backup (SY7). */
  was: Answered | null;
  /** Whether a person has seen what it was refused for, and put it away. */
  settled: boolean;
}

/** A picture that waits for the house. */
export interface Picture {
  id: string;
  /** JPEG, without anything the camera wrote beside it. */
  bytes: Blob;
  /** When it was kept here, by this device's clock, in milliseconds. */
  takenAt: number;
  /** When the house had it, by this device's clock, in milliseconds; null as long as it waits. */
  sentAt: number | null;
  /** Why it was not taken, where a person must look at it; it is not sent again by itself. */
  refused?: Problem;
  /** Whether it was drawn smaller, because it was too big for the house or what stands in front of it. */
  small?: true;
}

interface Stores extends DBSchema {
  /** Single values of this device: its id, epoch, cursor, who came in last. */
  device: { key: string; value: unknown };
  copy: { key: string; value: Kept };
  outbox: { key: string; value: Entry };
  pictures: { key: string; value: Picture };
}

export type Store = IDBPDatabase<Stores>;

const NAME = "chooseby";
const VERSION = 1;

let opened: Promise<Store> | null = null;

/** This device's own store; opened once, and again where the browser has closed it. */
export function store(): Promise<Store> {
  opened ??= openDB<Stores>(NAME, VERSION, {
    upgrade(made) {
      made.createObjectStore("device");
      made.createObjectStore("copy", { keyPath: "address" });
      made.createObjectStore("outbox", { keyPath: "id" });
      made.createObjectStore("pictures", { keyPath: "id" });
    },
    blocking: () => void close(),
    terminated: () => {
      opened = null;
    },
  }).catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

async function close(): Promise<void> {
  const open = await opened;
  opened = null;
  open?.close();
}

/** Take everything off this device. */
export async function clear(): Promise<void> {
  await close();
  await deleteDB(NAME);
}
