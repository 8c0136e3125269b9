import type { ComponentChildren } from "preact";
import { dayOf, inTheHouse, now } from "../door/clock";
import {
  answeredAt,
  answering,
  picturesRefused,
  picturesWaiting,
  toLookAt,
  waiting,
  waitingSince,
} from "../door/line";
import { me } from "../door/session";
import { clock, moment } from "../words/time";
import { Cleared } from "./cleared";
import { Newer } from "./newer";
import { Link, path } from "./router";

export interface Door {
  to: string;
  name: string;
  count?: number;
}

interface FrameProps {
  doors: Door[];
  children: ComponentChildren;
}

/** Around every screen: what house, whose hands, whether it answers, what waits, and the doors. */
export function Frame({ doors, children }: FrameProps) {
  return (
    <div class="frame">
      <a class="skip" href="#place">
        To what is on this screen
      </a>
      <header class="top">
        <div>
          <div class="stands">
            <span>{me.value?.house.name}</span>
            <span>{me.value?.person.name}</span>
            <Line />
            <Records />
            <Pictures />
          </div>
          <nav class="doors" aria-label="Doors">
            {doors.map((door) => (
              <Link
                key={door.to}
                to={door.to}
                aria-current={path.value.startsWith(door.to) ? "page" : undefined}
              >
                {door.name}
                {door.count ? (
                  <span class="count">
                    {door.count}
                    <span class="unseen"> open</span>
                  </span>
                ) : null}
              </Link>
            ))}
          </nav>
        </div>
      </header>
      <Newer />
      <Cleared />
      {children}
    </div>
  );
}

/** Whether the house answers, and how many records wait for it; a form and a word, not only a colour. */
function Line() {
  const at = answeredAt.value;
  const since = at === null ? "" : ` since ${sinceWhen(at)}`;
  const said = answering.value ? "online" : `no answer from the house${since}`;
  return (
    <span class={`state ${answering.value ? "" : "wrong"}`} role="status">
      <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
        {answering.value ? (
          <circle cx="6" cy="6" r="5" fill="currentColor" />
        ) : (
          <path d="M1 1L11 11M11 1L1 11" stroke="currentColor" stroke-width="2.5" />
        )}
      </svg>
      {said}
      {waiting.value > 0 && !waitingSince.value && ` · ${waiting.value} waiting to be sent`}
    </span>
  );
}

/** How many records of this device wait, and since when; leads to them. */
function Records() {
  const since = waitingSince.value;
  const [waits, looked] = [waiting.value, toLookAt.value];
  if (!since && looked === 0) return null;
  return (
    <Link to="/records" class="touch">
      {since !== null &&
        `${waits} ${waits === 1 ? "record waits" : "records wait"} since ${sinceWhen(since)}`}
      {since !== null && looked > 0 && " · "}
      {looked > 0 && `${looked} to look at`}
    </Link>
  );
}

/** How many pictures of this device wait for the house, and go by themselves; how many it did not take. */
function Pictures() {
  const [waits, refused] = [picturesWaiting.value, picturesRefused.value];
  return (
    <>
      {waits > 0 && <span>{waits === 1 ? "1 picture waits" : `${waits} pictures wait`}</span>}
      {refused > 0 && (
        <Link to="/records" class="touch">
          {refused === 1 ? "1 picture not taken" : `${refused} pictures not taken`}
        </Link>
      )}
    </>
  );
}

/** `07:40`, or `yesterday 07:40` where it was another day of the house. */
function sinceWhen(at: number): string {
  const zone = me.value?.house.zone ?? "UTC";
  const [day, today] = [inTheHouse(at), new Date(now.value)].map((each) => dayOf(each, zone));
  return day === today ? clock(inTheHouse(at), zone) : moment(inTheHouse(at), zone, now.value);
}

interface PlaceProps {
  title: string;
  under?: ComponentChildren;
  children: ComponentChildren;
}

/** One screen, with its name. */
export function Place({ title, under, children }: PlaceProps) {
  document.title = `${title} · Chooseby`;
  return (
    <main class="place" id="place" tabIndex={-1}>
      <header>
        <h1>{title}</h1>
        {under && <div class="soft">{under}</div>}
      </header>
      {children}
    </main>
  );
}
