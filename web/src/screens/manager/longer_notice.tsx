import type { LongerNoticeRow } from "../../door/rows";
import { Opens } from "../../parts/opens";
import { many } from "../../words/amounts";
import { inDays } from "../../words/time";

/** How much of the larder each length of notice would let the house buy once a menu is chosen, drawn. */
export function LongerNotice({ rows, needed }: { rows: LongerNoticeRow[]; needed: string | null }) {
  const own = rows.find((row) => row.is_own);
  return (
    <section class="stack tight narrow" aria-label="What another notice would change">
      <h2>What another notice would change</h2>
      {own && (
        <p>
          With {inDays(own.notice)} of notice <strong>{many(own.bought_in, "item")}</strong> can be
          bought once a menu is chosen, and <strong>{own.kept_in}</strong> must be kept in.
          {needed && ` To buy all that can be bought, the menu needs ${inDays(needed)}.`}
        </p>
      )}
      <ul class="lines">
        {rows.map((row) => (
          <Length key={row.notice} row={row} />
        ))}
      </ul>
    </section>
  );
}

function Length({ row }: { row: LongerNoticeRow }) {
  const all = Math.max(1, row.bought_in + row.kept_in);
  const names = row.gained.length ? row.gained : row.lost;
  const change = row.gained.length ? `${row.gained.length} more` : `${row.lost.length} fewer`;
  return (
    <li class="stack tight">
      <span class="row ends base">
        <strong>
          {inDays(row.notice)}
          {row.is_own && ", as now"}
        </strong>
        <span class="figure">{row.bought_in} bought in</span>
      </span>
      <svg class="lost-bar" viewBox={`0 0 ${all} 24`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="lost-avoidable" width={row.bought_in} height="24" />
      </svg>
      {names.length > 0 && (
        <span>
          <Opens figure={change} title={`${inDays(row.notice)}: ${change} bought in`}>
            <ul>
              {names.map((name) => (
                <li key={name}>{name}</li>
              ))}
            </ul>
          </Opens>
        </span>
      )}
    </li>
  );
}
