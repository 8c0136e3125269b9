import type { DayMark, LeftMark } from "../door/rows";

/** The kinds of things that stand on the line of the days. */
export type What = DayMark["what"] | LeftMark["what"];

const SIZE = 14;

/**
 * The form of a kind of thing on the line of the days, 14 by 14 about its middle.
 * Each has a form of its own, so that nothing is said by colour alone.
 */
export function Form({ what }: { what: What }) {
  switch (what) {
    case "service":
      return <rect x="-6" y="-6" width="12" height="12" rx="1.5" class="form-service" />;
    case "delivery":
      return <path d="M-7 -5H7L0 7Z" class="form-delivery" />;
    case "cut_off":
      return <path d="M0 -7V7M-5 -7H5M-5 7H5" class="form-cut" />;
    case "choose_by":
      return <circle r="5.5" class="form-choose" />;
    case "dies":
      return <path d="M-5 -5L5 5M5 -5L-5 5" class="form-dies" />;
    case "pull":
      return <path d="M0 7V-6M-5 -1L0 -7L5 -1" class="form-cut" />;
    case "make":
      return <path d="M0 -7L6 4H-6Z" class="form-choose" />;
    case "left":
      return <path d="M-6 0H6" class="form-dies" />;
  }
}

/** The form as a mark in a line of text. */
export function Mark({ what }: { what: What }) {
  return (
    <svg class="mark" width={SIZE + 2} height={SIZE + 2} viewBox="-8 -8 16 16" aria-hidden="true">
      <Form what={what} />
    </svg>
  );
}
