/** Telling a handheld scanner, which types as a keyboard does, from a person's fingers. */

const PAUSE = 200;
const SLOWEST_MEAN = 50;
const SHORTEST = 6;

interface Key<Before> {
  key: string;
  at: number;
  before: Before;
}

/**
 * A run of keys, each with what stood in its field before it. A scanner's keys come a few milliseconds
 * apart and end with Enter; a person's come a hundred apart, and no slower than half that for six in a row;
 * between the last of a hand and the first of a scanner lies a pause (common practice, no source).
 */
export class Burst<Before> {
  private keys: Key<Before>[] = [];

  add(key: string, at: number, before: Before): void {
    const last = this.keys.at(-1);
    if (last && at - last.at > PAUSE) this.forget();
    this.keys.push({ key, at, before });
  }

  /** A key that no code has begins a new run. */
  forget(): void {
    this.keys = [];
  }

  /** Whether no hand typed the run so far. */
  get isFast(): boolean {
    const [first, last] = [this.keys[0], this.keys.at(-1)];
    if (!first || !last || this.keys.length < SHORTEST) return false;
    return last.at - first.at <= (this.keys.length - 1) * SLOWEST_MEAN;
  }

  /** What a scanner said that ended its run at this instant, else null; a new run begins. */
  end(at: number): { text: string; before: Before } | null {
    const { keys, isFast } = this;
    const [first, last] = [keys[0], keys.at(-1)];
    this.forget();
    if (!isFast || !first || !last || at - last.at > PAUSE) return null;
    return { text: keys.map(({ key }) => key).join(""), before: first.before };
  }
}
