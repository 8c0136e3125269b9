import { useSignal } from "@preact/signals";
import { attempted, type Problem } from "../../door/problem";
import { useReport } from "../../door/reports";
import type { QuestionRow } from "../../door/rows";
import { mayGive, mayRead, me, role, signOut } from "../../door/session";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Wrong } from "../../parts/said";
import { type Part, PLACES, type PlaceOf } from "../places";

/** The parts of *More*, the work of the day first. */
const PARTS: readonly (readonly [Part, string])[] = [
  ["today", "Today"],
  ["house", "The house"],
  ["keeping", "How the house is kept"],
  ["device", "This device"],
];

/** The other rooms of the house by what they are for, and the way out. */
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
      {PARTS.map(([part, title]) => (
        <Rooms
          key={part}
          title={title}
          rooms={rooms.filter((room) => room.part === part)}
          questions={count}
        />
      ))}
      {problem.value && <Wrong problem={problem.value} />}
      <div>
        <Button onClick={() => void leave()}>Sign out</Button>
      </div>
    </Place>
  );
}

function Rooms({
  title,
  rooms,
  questions,
}: {
  title: string;
  rooms: PlaceOf[];
  questions: number;
}) {
  if (rooms.length === 0) return null;
  return (
    <section class="stack tight narrow" aria-label={title}>
      <h2>{title}</h2>
      <ul class="lines rooms">
        {rooms.map((room) => (
          <li key={room.to}>
            <Link to={room.to}>
              <span class="row ends">
                <span>{room.name}</span>
                {room.to === "/questions" && questions > 0 && (
                  <span class="count">{questions}</span>
                )}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
