import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { CountsRow } from "../../../door/rows";
import { role } from "../../../door/session";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { dayOf, near } from "../../../words/time";
import { Found } from "./found";
import { useDrafts } from "./kept";

/** Where a count is told once it is recorded, with its way back. */
export const COUNTED = "/counts";

/** Every storage area: when it was counted last, and how much of it is due. */
export function Areas() {
  const report = useReport<CountsRow>("counts");
  const doing = useDoing(COUNTED);
  return (
    <Place title="Counts" under="A little every day: what is due is marked">
      <Done doing={doing} />
      <div class="columns">
        <Shown report={report} what="Looking at what was counted">
          {(rows, zone) => <List rows={rows} zone={zone} />}
        </Shown>
        {role.value !== "porter" && <Found />}
      </div>
    </Place>
  );
}

function List({ rows, zone }: { rows: CountsRow[]; zone: string }) {
  const begun = useDrafts(rows.map(({ area_id }) => area_id));
  return (
    <ul class="lines" aria-label="Storage areas">
      {rows.map((row) => (
        <li key={row.area_id}>
          <Link to={`/counts/${encodeURIComponent(row.area_id)}`}>
            <span class="row ends base">
              <strong>{row.area}</strong>
              <span class="figure">{row.due > 0 ? `${row.due} due` : "nothing due"}</span>
            </span>
            <span class="row ends base small">
              <span class="soft">{lastWords(row, zone)}</span>
              {begun.value.includes(row.area_id) ? (
                <strong>begun</strong>
              ) : (
                <span class="soft">{many(row.lines.length, "item")}</span>
              )}
            </span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

function lastWords({ counted_at, counted_by }: CountsRow, zone: string): string {
  if (!counted_at) return "not counted yet";
  const day = near(dayOf(counted_at, zone), dayOf(new Date(now.value), zone));
  return `counted ${day} by ${counted_by}`;
}
