import { useSignal } from "@preact/signals";
import type { BodyOf } from "../../../door/command";
import type { StayChangeRow } from "../../../door/rows";
import { mayRead } from "../../../door/session";
import { dayName } from "../../../words/time";
import { useEffects } from "../effects";
import { EffectsShown } from "../effects_shown";
import { useIfSo } from "../if_so";
import { followingSaid } from "./stay_words";

interface StayEffectsProps {
  /** The stay as it is being written; null: not all of it is said yet. */
  stay: BodyOf<"say_stay"> | null;
  zone: string;
}

/** What a stay would do to the menus to come, before it is said. */
export function StayEffects({ stay, zone }: StayEffectsProps) {
  const told = useIfSo<StayChangeRow>(stay && `/api/reports/stay-change?${asked(stay)}`);
  const rows = told.rows.value;
  if (!stay) return null;
  if (told.problem.value) {
    return <p class="soft">What it would change is not known: {told.problem.value.detail}</p>;
  }
  if (!rows) return <p class="soft">Looking at what it would change…</p>;
  return (
    <section class="stack tight" aria-label="Menus it changes" aria-busy={told.asking.value}>
      <h3>Menus it changes</h3>
      {rows.length === 0 && <p>No menu has another number by it.</p>}
      <ul class="lines">
        {rows.map((row) => (
          <OneMenu key={row.service} row={row} zone={zone} />
        ))}
      </ul>
    </section>
  );
}

function asked({ stay, heads, table, first, first_at, last, last_at }: BodyOf<"say_stay">): string {
  const given = { stay, heads: String(heads), table, first, first_at, last, last_at };
  const filled = Object.entries(given).filter((each): each is [string, string] => !!each[1]);
  return new URLSearchParams(filled).toString();
}

function OneMenu({ row, zone }: { row: StayChangeRow; zone: string }) {
  const isOpen = useSignal(false);
  const weighs = row.following === "asked" && row.state === "confirmed" && row.would_be;
  return (
    <li class="stack tight">
      <span>
        <strong>
          {dayName(row.date)} {row.meal}, {row.table}:{" "}
          <span class="figure">
            {row.said ?? "?"} <span aria-hidden="true">→</span>
            <span class="unseen">to</span> {row.would_be ?? "?"}
          </span>
        </strong>{" "}
        {followingSaid(row)}
      </span>
      {weighs && mayRead("late-change") && (
        <details
          onToggle={(event) => {
            isOpen.value = event.currentTarget.open;
          }}
        >
          <summary>
            If it is for {row.would_be} instead of {row.covers}
          </summary>
          {isOpen.value && <Weighed row={row} zone={zone} />}
        </details>
      )}
    </li>
  );
}

function Weighed({ row, zone }: { row: StayChangeRow; zone: string }) {
  const effects = useEffects(row.service, { covers: String(row.would_be) });
  return <EffectsShown effects={effects} zone={zone} />;
}
