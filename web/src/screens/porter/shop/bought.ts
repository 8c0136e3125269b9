import { type BodyOf, newId } from "../../../door/command";
import type { Taken } from "../../../door/photos/keeping";
import { minorUnits } from "../../../words/amounts";
import { packDate } from "../../../words/pack_date";
import { amountWords, missing, receiveBody } from "../line_body";
import type { Facts } from "../line_facts";
import type { LineState } from "../line_state";

type Body = BodyOf<"shop_run">;

/** One thing that was bought and matters, as it will be given and in words. */
export interface Bought {
  part: NonNullable<Body["lines"]>[number];
  item: string;
  words: string;
}

/** Everything that is said of one shop run. */
export interface Run {
  shop: string;
  /** What was paid in all, as it was typed. */
  total: string;
  lines: Bought[];
  /** What the house has no item of, in words. */
  others: string[];
}

/** What stops something bought from being added, in words; the sum it cost may be left out. */
export function hindrance(facts: Facts, state: LineState, cost: string, currency: string) {
  const wrong = missing(facts, state, "accept", "", false);
  if (wrong) return wrong;
  if (cost.trim() && minorUnits(cost, currency) === null) {
    return "Write what it cost as 3.10, in figures; or leave it empty.";
  }
  return null;
}

/** Something bought, as the batch it becomes. */
export function bought(facts: Facts, state: LineState, cost: string, currency: string): Bought {
  const batch = newId();
  const said = receiveBody(facts, state, "accept", "", batch);
  const { item, quantity, area, date_mark, lot } = said;
  const minor = cost.trim() ? minorUnits(cost, currency) : null;
  const place = facts.areas.find(({ id }) => id === area)?.area;
  const date = date_mark?.date;
  const kind = date_mark?.kind === "use_by" ? "use by" : "best before";
  return {
    part: {
      batch,
      item,
      quantity,
      area,
      date_mark,
      ...(lot ? { lot } : {}),
      ...(minor === null ? {} : { cost: { minor, currency } }),
    },
    item: facts.item.item,
    words: [amountWords(facts, state), date && `${kind} ${packDate(date)}`, place]
      .filter(Boolean)
      .join(" · "),
  };
}

/** What stops a shop run from being recorded, in words. */
export function lacking({ shop, total }: Run, currency: string): string | null {
  if (!shop.trim()) return "Say which shop it was.";
  if (total.trim() && minorUnits(total, currency) === null) {
    return "Write what was paid as 13.85, in figures; or leave it empty.";
  }
  return null;
}

/** The body of a shop run; what was paid is left out where nobody says it. */
export function runBody(run: Run, pictures: Taken[], currency: string): Body {
  const minor = run.total.trim() ? minorUnits(run.total, currency) : null;
  const photos = pictures.map(({ id }) => id);
  return {
    shop: run.shop.trim(),
    lines: run.lines.map(({ part }) => part),
    others: run.others,
    ...(minor === null ? {} : { total: { minor, currency } }),
    ...(photos.length > 0 ? { photos } : {}),
  };
}

/** `Corner shop, 13.85 GBP, 3 things`. */
export function runWords({ shop, total, lines, others }: Run, currency: string): string {
  const count = lines.length + others.length;
  const things = count === 1 ? "1 thing" : `${count} things`;
  return [shop.trim(), total.trim() && `${total.trim()} ${currency}`, count > 0 && things]
    .filter(Boolean)
    .join(", ");
}
