import { useSignal } from "@preact/signals";
import { attempted, type Problem } from "../../door/problem";
import { useReport } from "../../door/reports";
import type { QuestionRow } from "../../door/rows";
import { mayGive, mayRead, me, role, signOut } from "../../door/session";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Wrong } from "../../parts/said";
import { PLACES } from "../places";

/** The other rooms of the house, and the way out. */
export function More() {
  const questions = useReport<QuestionRow>("questions");
  const problem = useSignal<Problem | null>(null);
  const leave = async () => {
    problem.value = await attempted(signOut);
  };
  const count = questions.said.value?.rows.length ?? 0;
  const rooms = PLACES.filter(
    (place) =>
      !(role.value && place.door.includes(role.value)) &&
      mayRead(place.reads) &&
      (!place.shownOn || (place.shownOn === "device") === Boolean(me.value?.device)) &&
      (!place.gives || mayGive(place.gives)),
  );
  return (
    <Place title="More" under={`${me.value?.person.name}, ${me.value?.person.role}`}>
      <ul class="lines narrow">
        {rooms.map((place) => (
          <li key={place.to}>
            <Link to={place.to}>
              <span class="row ends">
                <span>{place.name}</span>
                {place.to === "/questions" && count > 0 && <span class="count">{count}</span>}
              </span>
            </Link>
          </li>
        ))}
      </ul>
      {problem.value && <Wrong problem={problem.value} />}
      <div>
        <Button onClick={() => void leave()}>Sign out</Button>
      </div>
    </Place>
  );
}
