import type { State } from "../../door/rows";
import { STATES, type Standing } from "../../words/menus";

/** The state of a menu as a form and a word. */
export function StateMark({ state }: { state: State }) {
  return (
    <span class="state">
      <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" class={`menu ${state}`}>
        <rect x="2" y="2" width="12" height="12" rx="2" />
        {state === "served" && <path d="M4.5 8.5L7 11L11.5 5" />}
        {state === "taken_off" && <path d="M5 5L11 11M11 5L5 11" />}
      </svg>
      {STATES[state]}
    </span>
  );
}

/** How a dish stands as a form: a tick, an open ring, a cross. */
export function StandingMark({ stands }: { stands: Standing }) {
  return (
    <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" class={`stands-${stands}`}>
      {stands === "covered" && <path d="M2 8.5L6 12.5L14 3.5" />}
      {stands === "buy" && <circle cx="8" cy="8" r="5.5" />}
      {stands === "gone" && <path d="M3 3L13 13M13 3L3 13" />}
    </svg>
  );
}
