import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { answering } from "../door/line";
import { returned } from "../door/pulse";
import { mayRead, me, role } from "../door/session";
import { Frame } from "../parts/frame";
import { later } from "../parts/later";
import { go, path } from "../parts/router";
import { Waiting } from "../parts/said";
import { FRONT, PLACES, type PlaceOf } from "./places";

const Entry = later(() => import("./entry/doors").then((room) => room.Entry));

/** The screens that have been brought, by the path of their place. */
const brought = signal<Record<string, ComponentType>>({});

async function bring(place: PlaceOf): Promise<void> {
  try {
    const screen = await place.screen();
    brought.value = { ...brought.value, [place.to]: screen };
  } catch {
    // the house is silent; it is asked again when it answers
    answering.value = false;
  }
}

const REST = 2_000;

async function bringAll(places: PlaceOf[]): Promise<void> {
  for (const place of places) {
    if (!brought.value[place.to]) await bring(place);
  }
}

/** The whole client: the entry, or the place that the path names. */
export function House() {
  const open = PLACES.filter((place) => mayRead(place.reads));
  const entered = me.value ? open : PLACES.filter((place) => place.forStrangers);
  const here = entered.find(({ to }) => path.value === to || path.value.startsWith(`${to}/`));
  // settled while drawing: an effect that runs late would find somebody known, and an old `here`
  const nowhere = Boolean(me.value) && !here;
  const opensOnto = role.value ? FRONT[role.value] : "/";
  useEffect(() => {
    if (nowhere) go(opensOnto, { replace: true });
  }, [nowhere, opensOnto]);
  useEffect(() => {
    if (here && !brought.value[here.to]) void bring(here);
  }, [here, returned.value]);
  useEffect(() => {
    // the other rooms come once this one stands, so that each opens without the house, too
    const timer = setTimeout(() => void bringAll(open), REST);
    return () => clearTimeout(timer);
  }, [me.value, returned.value]);
  const Screen = here && brought.value[here.to];
  const empty = <main class="place" id="place" tabIndex={-1} aria-busy="true" />;
  if (!me.value && here) return <div class="frame">{Screen ? <Screen /> : empty}</div>;
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
  const doors = open.filter((place) => role.value && place.door.includes(role.value));
  return <Frame doors={doors}>{Screen ? <Screen /> : empty}</Frame>;
}
