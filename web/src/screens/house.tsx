import { useEffect } from "preact/hooks";
import { answering } from "../door/line";
import { mayRead, me, role } from "../door/session";
import { Frame } from "../parts/frame";
import { go, path } from "../parts/router";
import { Waiting } from "../parts/said";
import { Entry } from "./entry/doors";
import { FRONT, PLACES } from "./places";

/** The whole client: the entry, or the place that the path names. */
export function House() {
  const open = PLACES.filter((place) => mayRead(place.reads));
  const here = open.find(({ to }) => path.value === to || path.value.startsWith(`${to}/`));
  const opensOnto = role.value ? FRONT[role.value] : "/";
  useEffect(() => {
    if (me.value && !here) go(opensOnto, { replace: true });
  }, [me.value, here, opensOnto]);
  if (me.value === undefined) {
    return (
      <main class="place narrow" id="place">
        <h1>Chooseby</h1>
        <Waiting
          what={answering.value ? "Asking the house" : "The house does not answer; trying again"}
        />
      </main>
    );
  }
  if (me.value === null) return <Entry />;
  const Screen = here?.screen;
  return <Frame doors={open.filter((place) => place.door)}>{Screen && <Screen />}</Frame>;
}
