import type { ComponentChildren } from "preact";
import { now } from "../../door/clock";
import type { LateChangeRow } from "../../door/rows";
import { mayRead } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { DaysLeft } from "../../parts/days_left";
import { amount, many } from "../../words/amounts";
import { moment, until } from "../../words/time";
import type { Effects } from "./effects";

type Effect = LateChangeRow["effect"];

interface EffectsShownProps {
  effects: Effects;
  zone: string;
}

/** What a change would do, before it is done: the worst first, what is only bookkeeping folded away. */
export function EffectsShown({ effects, zone }: EffectsShownProps) {
  const rows = effects.rows.value;
  if (!mayRead("late-change")) return null;
  if (effects.problem.value) {
    return <p class="soft">What it would change is not known: {effects.problem.value.detail}</p>;
  }
  if (rows === null) return <p class="soft">Looking at what it would change…</p>;
  const of = (...kinds: Effect[]) => rows.filter(({ effect }) => kinds.includes(effect));
  return (
    <section class="stack tight" aria-label="What it would change" aria-busy={effects.asking.value}>
      <h3>What it would change</h3>
      {rows.length === 0 && <p>Nothing is short by it, and nothing is spare.</p>}
      <Kind mark="✕" rows={of("short")} title="short, and not to be had any more">
        {(row) => <For row={row} />}
      </Kind>
      <Kind mark="!" rows={of("to_order")} title="short, still to be ordered">
        {(row) => (
          <>
            <For row={row} />, order by{" "}
            <strong>{moment(row.mend_until ?? "", zone, now.value)}</strong>{" "}
            {until(row.mend_until ?? "", now.value)}
          </>
        )}
      </Kind>
      <Kind mark="○" rows={of("spare")} title="spare: no chosen menu uses it any more">
        {(row) => (
          <>
            <span class="soft">{row.label}</span>
            <Lasts row={row} zone={zone} />
          </>
        )}
      </Kind>
      <Kind mark="○" rows={of("coming_spare")} title="on the way, and no chosen menu uses it">
        {(row) => <>comes {moment(row.when ?? "", zone, now.value)}</>}
      </Kind>
      <Kind mark="+" rows={of("make_more")} title="to be made besides" folded>
        {(row) => <>made {moment(row.when ?? "", zone, now.value)}</>}
      </Kind>
      <Kind mark="−" rows={of("make_less")} title="not to be made" folded>
        {(row) => <>was to be made {moment(row.when ?? "", zone, now.value)}</>}
      </Kind>
      <Kind mark="+" rows={of("set_aside")} title="set aside from what is there" folded>
        {(row) => <span class="soft">{row.label ?? "on its way"}</span>}
      </Kind>
      <Kind mark="✓" rows={of("covered")} title="no longer short" folded>
        {(row) => <For row={row} />}
      </Kind>
    </section>
  );
}

interface KindProps {
  mark: string;
  rows: LateChangeRow[];
  title: string;
  /** It may be looked at; nobody has to decide anything by it. */
  folded?: boolean;
  children: (row: LateChangeRow) => ComponentChildren;
}

function Kind({ mark, rows, title, folded = false, children }: KindProps) {
  if (rows.length === 0) return null;
  return (
    <details open={!folded}>
      <summary>
        <span aria-hidden="true">{mark} </span>
        {many(rows.length, "item")} {title}
      </summary>
      <ul class="stack tight">
        {rows.map((row) => (
          <li key={`${row.item} ${row.batch} ${row.service} ${row.dish} ${row.when}`}>
            {row.item} {amount(row.quantity)} {children(row)}
          </li>
        ))}
      </ul>
    </details>
  );
}

function For({ row }: { row: LateChangeRow }) {
  return (
    <span class="soft">
      for {row.dish && `${row.dish}, `}
      {row.service && serviceName(row.service)}
    </span>
  );
}

/** Until when it may be used, and until when it is at its best, where no date ends it. */
function Lasts({ row, zone }: { row: LateChangeRow; zone: string }) {
  if (row.usable_until) return <DaysLeft until={row.usable_until} kind="none" zone={zone} />;
  return <DaysLeft until={row.good_until} kind="at_its_best" zone={zone} />;
}
