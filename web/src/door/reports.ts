import { computed, effect, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { setClock } from "./clock";
import { kept as copyOf, keep } from "./copy";
import { position } from "./news";
import { type Problem, problemOf, Refused } from "./problem";
import { returned } from "./pulse";
import { ask } from "./request";
import type { ReportName, Reports, Tells } from "./rows";
import { me } from "./session";

/** What a report answers. */
export type Report<Row> = Omit<Reports[ReportName], "rows"> & { rows: Row[] };

/** A report on a screen: what it last said, what is wrong, and whether it is being asked. */
export interface Asked<Row> {
  said: ReadonlySignal<Report<Row> | null>;
  problem: ReadonlySignal<Problem | null>;
  asking: ReadonlySignal<boolean>;
  /** Whether what it said is what this device kept, and the house has not confirmed it. */
  copied: ReadonlySignal<boolean>;
  again: () => Promise<void>;
}

const kept = new Map<string, Asked<unknown>>();

/** Lays what this device recorded and the house did not have yet over what a report said. */
export type Laying = <Row>(name: ReportName, told: Report<Row>) => Report<Row> | null;

/** How own records are laid over reports; null as long as there is no outbox. */
export const laying = signal<{ lay: Laying } | null>(null);

/** Forget everything that was said, for whoever signs in next. */
export function forget(): void {
  kept.clear();
}

function address(name: string, args: Record<string, string>): string {
  const query = new URLSearchParams(args).toString();
  return `/api/reports/${name}${query ? `?${query}` : ""}`;
}

function asked<Row>(name: ReportName, args: Record<string, string>): Asked<Row> {
  const where = address(name, args);
  const before = kept.get(where);
  if (before) return before as Asked<Row>;
  const said = signal<Report<Row> | null>(null);
  const problem = signal<Problem | null>(null);
  const asking = signal(false);
  const copied = signal(false);
  let stale = false;
  const fromCopy = recalled(where, said, copied);
  const again = async (): Promise<void> => {
    if (asking.peek()) {
      stale = true;
      return;
    }
    asking.value = true;
    try {
      do {
        stale = false;
        const found = await ask<Report<Row>>(where);
        setClock(found.as_of);
        said.value = found;
        problem.value = null;
        copied.value = false;
        void keep(where, found);
      } while (stale);
    } catch (error) {
      await fromCopy;
      problem.value = problemOf(error);
      copied.value = said.value !== null && problem.value.status === 0;
    } finally {
      asking.value = false;
    }
  };
  let stood: Report<Row> | null = null;
  const shown = computed(() => {
    const told = said.value;
    if (laying.value && told) {
      // what stood stays for the moment until a first record can be laid: no screen goes away under a person
      stood = laying.value.lay(name, told) ?? stood;
      return stood;
    }
    // a line that was recorded here must not look awaited for the moment until that is known
    return me.value?.device ? null : told;
  });
  const made: Asked<Row> = { said: shown, problem, asking, copied, again };
  kept.set(where, made as Asked<unknown>);
  return made;
}

/** How long what was kept may stand without a word before it is said that it was kept, in milliseconds. */
const UNSAID = 1_000;

/** Say what this device kept of a report, until the house says it anew. */
async function recalled<Row>(
  where: string,
  said: Signal<Report<Row> | null>,
  copied: Signal<boolean>,
): Promise<void> {
  const before = await copyOf(where);
  if (!before || said.value) return;
  const was = before.said as Report<Row>;
  said.value = was;
  setTimeout(() => {
    if (said.value === was) copied.value = true;
  }, UNSAID);
}

/** Ask a report again where the house has changed since it was told. */
export async function renew(name: ReportName, args: Record<string, string>): Promise<void> {
  const report = asked(name, args);
  const told = report.said.peek();
  if (report.asking.peek() || (told && !report.copied.peek() && told.position >= position.peek()))
    return;
  await report.again();
}

/**
 * What a report says now, for what is not a screen: what it last said, or else what it says once it is asked.
 * Throws `Refused` where it has never been told here and cannot be.
 */
export function nowTold<Row>(name: Tells<Row>): Promise<Report<Row>> {
  const report = asked<Row>(name, {});
  if (!report.said.peek()) void report.again();
  return new Promise((told, refuse) => {
    const stop = effect(() => {
      const [said, problem] = [report.said.value, report.problem.value];
      if (said) told(said);
      else if (problem && !report.asking.value) refuse(new Refused(problem));
      else return;
      queueMicrotask(() => stop());
    });
  });
}

/** What a report last said here; null where it has not yet. */
export function lastTold<Row>(name: Tells<Row>): Report<Row> | null {
  return asked<Row>(name, {}).said.value;
}

const EVERY = 60_000;

/**
 * A report for as long as a screen shows it: asked at once, again when the house has changed, and once a
 * minute, since time alone changes what is past and what is due.
 */
export function useReport<Row>(name: Tells<Row>, args: Record<string, string> = {}): Asked<Row> {
  const where = address(name, args);
  const report = useMemo(() => asked<Row>(name, args), [where]);
  useEffect(() => {
    const stop = effect(() => {
      position.value;
      returned.value;
      void report.again();
    });
    const timer = setInterval(() => void report.again(), EVERY);
    return () => {
      stop();
      clearInterval(timer);
    };
  }, [report]);
  return report;
}
