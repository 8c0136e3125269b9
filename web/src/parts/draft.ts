import { effect, type Signal, signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { forgetDraft, forgetDraftsBefore } from "../door/drafts";
import type { Taken } from "../door/photos/keeping";
import { type Fields, KeptValues, LIVES, type Values } from "./kept_values";

/**
 * Keep on this device what somebody fills in and the pictures they take, through leaving the screen, through a page
 * that was killed and a program that starts again; `fresh` where what is in hand now goes before what was filled in
 * then. Pictures are there again even so: whoever sees them can take them away.
 */
export function useDraft(
  name: string,
  fields: object,
  pictures: Signal<Taken[]>,
  fresh: boolean,
): Draft {
  const draft = useMemo(() => new Draft(name, fields, pictures, fresh), [name]);
  useEffect(draft.keeping, [draft]);
  return draft;
}

/** What somebody has filled in and not recorded yet, with the pictures taken of it. */
export class Draft {
  /** When what was taken up again was left, by this device's clock, in milliseconds; null where nothing was. */
  readonly since = signal<number | null>(null);
  /** Whether it was put away, and can be had back. */
  readonly isAway = signal(false);
  /** Done once this device has been asked what was begun: nothing is recorded without its pictures. */
  readonly ready: Promise<void>;
  private readonly filled: KeptValues;
  private readonly taken: KeptValues;
  private readonly isAsked = signal(false);
  private away: Values[] = [];

  constructor(
    name: string,
    fields: object,
    private readonly pictures: Signal<Taken[]>,
    private readonly fresh: boolean,
  ) {
    this.filled = new KeptValues(name, fields as Fields);
    // apart, so that they are not written again with every figure that is typed
    this.taken = new KeptValues(`${name} pictures`, { pictures: pictures as Signal<unknown> });
    this.ready = this.takeUp();
  }

  private get both(): KeptValues[] {
    return [this.filled, this.taken];
  }

  private async takeUp(): Promise<void> {
    const { filled, taken, pictures } = this;
    const [values, before] = await Promise.all([this.fresh ? null : filled.kept(), taken.kept()]);
    const left: number[] = [];
    // what was filled in while this device was asked goes before it
    if (values && filled.isUntouched()) {
      filled.takeUp(values.values);
      left.push(values.at);
    }
    if (before) {
      const meanwhile = pictures.value;
      taken.takeUp(before.values);
      if (meanwhile.length > 0) pictures.value = [...pictures.value, ...meanwhile];
      left.push(before.at);
    }
    if (left.length > 0) this.since.value = Math.max(...left);
    this.isAsked.value = true;
    await forgetDraftsBefore(Date.now() - LIVES);
  }

  /** Keep what changes from now on; answers how to end that. */
  readonly keeping = (): (() => void) =>
    effect(() => {
      for (const each of this.both) each.values();
      // not before it is known what stands there
      if (this.isAsked.value) for (const each of this.both) each.keep();
    });

  /** It is recorded. */
  readonly forget = (): void => {
    this.since.value = null;
    this.isAway.value = false;
    for (const each of this.both) void forgetDraft(each.name);
  };

  /** Put it away, pictures and all, and begin anew. */
  readonly anew = (): void => {
    this.away = this.both.map((each) => each.values());
    for (const each of this.both) each.propose();
    this.forget();
    this.isAway.value = true;
  };

  /** Have back what was put away. */
  readonly undo = (): void => {
    this.both.forEach((each, place) => {
      each.set(this.away[place] ?? {});
    });
    this.isAway.value = false;
  };
}
