import "../../look/menus.css";
import type { ComponentChildren } from "preact";
import { now } from "../../door/clock";
import type { CoverageRow } from "../../door/rows";
import { amount, listed, many } from "../../words/amounts";
import { moment, until } from "../../words/time";
import type { Pick } from "./choice";
import { partSaid } from "./derived";
import { neededTwice, type Outcome as Of } from "./outcomes";
import { Picture } from "./picture";

interface OutcomeProps {
  outcome: Of;
  zone: string;
  /** For how many the figures are worked out. */
  isFor: number;
  covers: string;
  picks: Pick[];
}

/** What happens when this is confirmed: what is set aside, what must be ordered by when, what cannot be had. */
export function Outcome({ outcome, zone, isFor, covers, picks }: OutcomeProps) {
  const twice = neededTwice(outcome);
  const others = picks.filter((one) => one.person !== null).length;
  const isOther = Number(covers) !== isFor || picks.some((one) => one.portions !== "");
  return (
    <section class="stack tight" aria-label="What happens when it is confirmed">
      <h2>When this is confirmed</h2>
      <Picture outcome={outcome} />
      <ul class="lines">
        <Kind kind="stock" rows={outcome.stock} title="set aside from the shelf">
          {(row) => row.from.map(partSaid).join(", ")}
        </Kind>
        <Kind kind="coming" rows={outcome.coming} title="made in the kitchen, or on its way">
          {(row) => row.from.map(partSaid).join(", ")}
        </Kind>
        <Kind kind="buy" rows={outcome.buy} title="to be ordered">
          {(row) => (
            <>
              {amount(row.short)} by{" "}
              <strong>{moment(row.mend_until ?? "", zone, now.value)}</strong>{" "}
              {until(row.mend_until ?? "", now.value)}
            </>
          )}
        </Kind>
        <Kind kind="gone" rows={outcome.gone} title="cannot be had any more">
          {(row) => `${amount(row.short)} short`}
        </Kind>
      </ul>
      {twice.length > 0 && (
        <p class="soft">
          Dish by dish: {listed(twice)} {twice.length > 1 ? "are" : "is"} needed by more than one of
          them and may run short together.
        </p>
      )}
      {isOther && (
        <p class="soft">
          Worked out for what is proposed, {many(isFor, "cover")}; what is promised follows the
          covers and portions that you confirm.
        </p>
      )}
      {others > 0 && (
        <p class="soft">A person's own dish is worked out when the menu is confirmed.</p>
      )}
    </section>
  );
}

interface KindProps {
  kind: keyof Of;
  rows: CoverageRow[];
  title: string;
  children: (row: CoverageRow) => ComponentChildren;
}

function Kind({ kind, rows, title, children }: KindProps) {
  if (rows.length === 0) return null;
  return (
    <li>
      <details open={kind === "buy" || kind === "gone"}>
        <summary>
          <Key kind={kind} /> {many(rows.length, "item")} {title}
        </summary>
        <ul class="stack tight">
          {rows.map((row) => (
            <li key={row.dish + row.item + row.for}>
              {row.item}: {children(row)} <span class="soft">for {row.for ?? row.dish}</span>
            </li>
          ))}
        </ul>
      </details>
    </li>
  );
}

/** The form that a kind has in the picture. */
function Key({ kind }: { kind: keyof Of }) {
  return (
    <svg class="outcome key" width="18" height="14" viewBox="0 0 18 14" aria-hidden="true">
      <g class={kind}>
        <rect x="2" y="2" width="14" height="10" />
        {kind === "coming" && <path d="M6 3V11M10 3V11M14 3V11" />}
        {kind === "gone" && <path d="M2 2L16 12M16 2L2 12" />}
      </g>
    </svg>
  );
}
