import { type Signal, useSignal } from "@preact/signals";
import { newId } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import { attempted, type Problem } from "../../../door/problem";
import { Button } from "../../../parts/button";

/** A picture in hand: it is kept on this device before the recipe that names it is written. */
export interface PictureInHand {
  taken: Signal<Taken | null>;
  problem: Signal<Problem | null>;
  choose: (file: File) => Promise<void>;
  /** Keep it; answers its id, null where there is none, undefined where it could not be kept. */
  keep: () => Promise<string | null | undefined>;
}

export function usePicture(): PictureInHand {
  const taken = useSignal<Taken | null>(null);
  const problem = useSignal<Problem | null>(null);
  const choose = async (file: File) => {
    problem.value = await attempted(async () => {
      const { drawn } = await import("../../../door/photos/taking");
      taken.value = { id: newId(), bytes: await drawn(file) };
    });
  };
  const keep = async () => {
    const picture = taken.value;
    if (!picture) return null;
    problem.value = await attempted(async () => {
      await (await import("../../../door/photos/keeping")).keep([picture]);
    });
    return problem.value ? undefined : picture.id;
  };
  return { taken, problem, choose, keep };
}

interface PictureOfProps {
  picture: PictureInHand;
  /** The id of the one it has already. */
  kept: string | null;
  onAway: () => void;
}

/** The picture of a dish: one, chosen from a file or taken. */
export function PictureOf({ picture, kept, onAway }: PictureOfProps) {
  const has = picture.taken.value !== null || kept !== null;
  return (
    <section class="row" aria-label="Picture">
      <label class="button takes">
        {has ? "Another picture" : "Add a picture"}
        <input
          type="file"
          accept="image/*"
          onChange={({ currentTarget }) => {
            const file = currentTarget.files?.[0];
            if (file) void picture.choose(file);
          }}
        />
      </label>
      {has && (
        <>
          <span>{picture.taken.value ? "A new picture is chosen." : "It has a picture."}</span>
          <Button
            kind="quiet"
            onClick={() => {
              picture.taken.value = null;
              onAway();
            }}
          >
            Take the picture away
          </Button>
        </>
      )}
    </section>
  );
}
