import { inTheHouse, now } from "../door/clock";
import { me } from "../door/session";
import { moment } from "../words/time";
import { Button } from "./button";
import type { Draft } from "./draft";
import { Said } from "./said";

/** That what stands here was filled in before, so that nobody takes an old date for the new box's. */
export function BegunBefore({ draft }: { draft: Draft }) {
  const at = draft.since.value;
  if (draft.isAway.value) {
    return (
      <Said>
        <span>Put away. This is begun anew.</span>
        <div>
          <Button onClick={draft.undo}>Undo</Button>
        </div>
      </Said>
    );
  }
  if (at === null) return null;
  const zone = me.value?.house.zone ?? "UTC";
  return (
    <Said kind="due">
      <span>As you left it {moment(inTheHouse(at), zone, now.value)}.</span>
      <div>
        <Button onClick={draft.anew}>Begin anew</Button>
      </div>
    </Said>
  );
}
