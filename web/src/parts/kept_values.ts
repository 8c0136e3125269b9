import type { Signal } from "@preact/signals";
import { draftOf, forgetDraft, keepDraft } from "../door/drafts";

/** How long something begun is taken up again, in milliseconds: after that it is about other goods. */
export const LIVES = 3 * 24 * 60 * 60 * 1_000;

export type Fields = Record<string, Signal<unknown>>;
export type Values = Record<string, unknown>;

/** Values that were filled in, as this device keeps them. */
interface Begun {
  /** When they were filled in last, by this device's clock, in milliseconds. */
  at: number;
  values: Values;
}

/** Values of one draft, kept whenever they move away from what was proposed. */
export class KeptValues {
  private readonly proposed: Values;
  private seen: string;

  constructor(
    readonly name: string,
    readonly fields: Fields,
  ) {
    this.proposed = this.values();
    this.seen = asText(this.proposed);
  }

  /** What was kept of it; nothing where it is of long ago. */
  async kept(): Promise<Begun | null> {
    const kept = await draftOf<Begun>(this.name);
    return kept && Date.now() - kept.at <= LIVES ? kept : null;
  }

  /** Take up what was kept, without keeping it as new. */
  takeUp(values: Values): void {
    this.seen = asText(values);
    this.set(values);
  }

  /** Whether nobody has filled in anything yet. */
  isUntouched(): boolean {
    return asText(this.values()) === asText(this.proposed);
  }

  keep(): void {
    const values = this.values();
    const text = asText(values);
    if (text === this.seen) return;
    this.seen = text;
    if (this.isUntouched()) void forgetDraft(this.name);
    else void keepDraft(this.name, { at: Date.now(), values } satisfies Begun);
  }

  propose(): void {
    this.set(this.proposed);
  }

  set(values: Values): void {
    for (const [name, field] of Object.entries(this.fields)) {
      if (name in values) field.value = values[name];
    }
  }

  values(): Values {
    return Object.fromEntries(
      Object.entries(this.fields).map(([name, { value }]) => [name, value]),
    );
  }
}

/** What tells values apart; a picture by its id. */
function asText(values: Values): string {
  return JSON.stringify(values);
}
