/** Telling a handheld scanner, which types as a keyboard does, from a person's fingers. */

const SLOWEST_GAP = 120;
const SLOWEST_MEAN = 50;
const SHORTEST = 6;

/**
 * A run of keys. A scanner's keys come a few milliseconds apart and end with Enter; a person's come a
 * hundred apart, and no slower than half that for six in a row (common practice, no source).
 */
export class Burst {
  private text = "";
  private began = 0;
  private last = 0;

  /** Take the next key; true where it begins a new run. */
  add(key: string, at: number): boolean {
    const fresh = !this.text || at - this.last > SLOWEST_GAP;
    if (fresh) {
      this.text = "";
      this.began = at;
    }
    this.text += key;
    this.last = at;
    return fresh;
  }

  /** Whether the run so far was typed by no hand. */
  get isFast(): boolean {
    const gaps = this.text.length - 1;
    return this.text.length >= SHORTEST && this.last - this.began <= gaps * SLOWEST_MEAN;
  }

  /** What the run says where a scanner ended it at this instant, else null; a new run begins. */
  end(at: number): string | null {
    const said = this.isFast && at - this.last <= SLOWEST_GAP ? this.text : null;
    this.text = "";
    return said;
  }
}
