import { type Signal, signal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { isGiven } from "../../door/command";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { type Deed, type Doing, deeds } from "../../parts/doing";
import { Said, Wrong } from "../../parts/said";
import { amount } from "../../words/amounts";
import { isClear, keptWhy, type PlaceHeld } from "../../words/failed";

/** What was kept of a place together, one command a batch, so that all of it can be taken back. */
interface Told {
  area: string;
  of: number;
  kept: Deed[];
  /** How many of them were taken back; null: nobody wants that. */
  back: number | null;
}

export interface Together {
  doing: Doing;
  running: Signal<boolean>;
  told: Signal<Told | null>;
  keep: (held: PlaceHeld) => Promise<void>;
  takeBack: () => Promise<void>;
  /** Something else was done since: that is told instead. */
  forget: () => void;
}

/** Keeping what is left of a place together, for as long as a screen shows it. */
export function useTogether(doing: Doing): Together {
  return useMemo(() => togetherWith(doing), [doing]);
}

function togetherWith(doing: Doing): Together {
  const running = signal(false);
  const told = signal<Told | null>(null);
  const keep = async ({ area, rows }: PlaceHeld) => {
    running.value = true;
    const kept: Deed[] = [];
    for (const row of rows) {
      told.value = { area, of: rows.length, kept: [...kept], back: null };
      const words = `${row.item} ${row.label}, ${amount(row.on_hold)}`;
      const body = { batch: row.batch, reason: keptWhy };
      // the first that the house refuses ends it: the rest is looked at one by one
      if (!isGiven(await doing.act("release", body, words))) break;
      kept.push(...deeds.value.slice(0, 1));
    }
    told.value = { area, of: rows.length, kept, back: null };
    running.value = false;
  };
  const takeBack = async () => {
    const was = told.value;
    if (!was) return;
    running.value = true;
    let back = 0;
    for (const deed of [...was.kept].reverse()) {
      if (!isGiven(await doing.undo(deed))) break;
      back += 1;
      told.value = { ...was, back };
    }
    running.value = false;
  };
  const forget = () => {
    told.value = null;
  };
  return { doing, running, told, keep, takeBack, forget };
}

/** The key that keeps all that is left of a place, where nothing speaks against any of it. */
export function KeepRest({ held, together }: { held: PlaceHeld; together: Together }) {
  if (!mayGive("release")) return null;
  if (!isClear(held)) {
    return held.rows.length > 1 ? (
      <p class="soft">
        One by one: tap a line. What is left may be kept together once its place is as it should be
        and nothing speaks against any of it.
      </p>
    ) : null;
  }
  return (
    <div>
      <Button
        onClick={() => void together.keep(held)}
        disabled={together.running.value || together.doing.busy.value}
      >
        Keep all {held.rows.length} that are left
      </Button>
    </div>
  );
}

/** What was kept together, and the way back for all of it. */
export function KeptTogether({ together }: { together: Together }) {
  const { doing, running, told } = together;
  if (!told.value) return null;
  const { area, of, kept, back } = told.value;
  return (
    <>
      <Said kind="done">
        <strong>
          {back === null
            ? `Kept ${kept.length} of ${of} in ${area}.`
            : `Taken back ${back} of ${kept.length} in ${area}.`}
        </strong>
        {!running.value && kept.length > 0 && back === null && (
          <div>
            <Button onClick={() => void together.takeBack()} disabled={doing.busy.value}>
              Undo all of it
            </Button>
          </div>
        )}
      </Said>
      {doing.problem.value && <Wrong problem={doing.problem.value} />}
    </>
  );
}
