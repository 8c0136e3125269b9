/** Telling a code that is still in front of the camera from one that has come in front of it. */

/** How long a code must be out of sight before it counts again, in milliseconds. */
const AWAY = 1_500;

/** How soon a number of a shop's barcode must be seen a second time, in milliseconds. */
const TWICE_WITHIN = 1_500;

export class Repeats {
  private readonly seen = new Map<string, number>();
  private readonly once = new Map<string, number>();

  /**
   * Whether what is seen at this instant may be relied on. In a bad picture EAN and UPC are read wrong, and
   * their one check digit lets one in ten of that pass: they must be seen twice.
   */
  isSure(text: string, at: number): boolean {
    if (!text.startsWith("]E")) return true;
    const before = this.once.get(text);
    this.once.set(text, at);
    return before !== undefined && at - before <= TWICE_WITHIN;
  }

  /** Whether a code that is seen at this instant has not just been seen. */
  isNew(text: string, at: number): boolean {
    const last = this.seen.get(text);
    this.seen.set(text, at);
    return last === undefined || at - last > AWAY;
  }

  /** Looking goes on after a while in which nobody looked: what was in sight then may still be. */
  goOn(at: number): void {
    for (const text of this.seen.keys()) this.seen.set(text, at);
  }
}
