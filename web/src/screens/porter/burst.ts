/** Telling a handheld scanner, which types as a keyboard does, from a person's fingers. */

const PAUSE = 120;
const SLOWEST_MEAN = 50;
const SHORTEST = 6;
/** A gap so many times the usual one of a run, and as long as a finger takes, parts a hand's keys from it. */
const PARTS = 5;
const FINGER = 60;

interface Key<Before> {
  key: string;
  at: number;
  before: Before;
}

/**
 * A run of keys, each with what stood in its field before it. A scanner's keys come a few milliseconds
 * apart and end with Enter; a person's come a hundred apart, and no slower than half that for six in a row
 * (common practice, no source).
 */
export class Burst<Before> {
  private keys: Key<Before>[] = [];

  add(key: string, at: number, before: Before): void {
    const last = this.keys.at(-1);
    if (last && at - last.at > PAUSE) this.keys = [];
    this.keys.push({ key, at, before });
  }

  /** The end of the run that no hand typed, as far as it goes. */
  private get fast(): Key<Before>[] {
    const gaps = this.keys.map(({ at }, place) => at - (this.keys[place - 1]?.at ?? at));
    const usual = [...gaps.slice(-SHORTEST)].sort((a, b) => a - b)[SHORTEST / 2] ?? 0;
    const parted = gaps.findLastIndex((gap) => gap > FINGER && gap > PARTS * usual);
    const run = this.keys.slice(Math.max(parted, 0));
    const [first, last] = [run[0], run.at(-1)];
    if (!first || !last || run.length < SHORTEST) return [];
    return last.at - first.at <= (run.length - 1) * SLOWEST_MEAN ? run : [];
  }

  get isFast(): boolean {
    return this.fast.length > 0;
  }

  /** What a scanner said that ended its run at this instant, else null; a new run begins. */
  end(at: number): { text: string; before: Before } | null {
    const run = this.fast;
    const [first, last] = [run[0], run.at(-1)];
    this.keys = [];
    if (!first || !last || at - last.at > PAUSE) return null;
    return { text: run.map(({ key }) => key).join(""), before: first.before };
  }
}
