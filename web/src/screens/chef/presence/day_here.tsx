import { now } from "../../../door/clock";
import type { PresenceRow } from "../../../door/rows";
import { mayRead } from "../../../door/session";
import { Opens } from "../../../parts/opens";
import { Link } from "../../../parts/router";
import { many } from "../../../words/amounts";
import { sentence } from "../../../words/menus";
import { dayName, moment } from "../../../words/time";
import { partSaid } from "./part_said";

interface DayHereProps {
  day: string;
  rows: PresenceRow[];
  zone: string;
}

/** One day: table by table how many eat at each meal; every number opens. */
export function DayHere({ day, rows, zone }: DayHereProps) {
  const tables = [...new Set(rows.map(({ table }) => table))];
  return (
    <section class="card stack tight" aria-label={dayName(day, true)}>
      <h2>{dayName(day, true)}</h2>
      {tables.map((table) => (
        <div key={table} class="row base">
          <strong>{table}</strong>
          {rows
            .filter((row) => row.table === table)
            .map((row) => (
              <Covers key={row.meal} row={row} zone={zone} />
            ))}
        </div>
      ))}
    </section>
  );
}

function Covers({ row, zone }: { row: PresenceRow; zone: string }) {
  const other = row.menu && row.covers !== null && row.menu.covers !== row.covers;
  return (
    <Opens
      figure={
        <>
          {row.meal} <span class="figure">{row.covers ?? "?"}</span>
          {other && <span>, menu for {row.menu?.covers}</span>}
          <span class="unseen">
            , {row.table}, {dayName(row.date)}
          </span>
        </>
      }
      title={`${sentence(row.meal)}, ${row.table}, ${dayName(row.date)}`}
    >
      <ul class="lines">
        {row.made_of.map((part) => (
          <li key={part.what + part.id}>
            <strong>{partSaid(part)}</strong>
            {part.said_by && part.said_at && (
              <span class="soft">
                {" "}
                said by {part.said_by} {moment(part.said_at, zone, now.value)}
              </span>
            )}
          </li>
        ))}
        {row.made_of.length === 0 && <li>Nobody has said how many eat.</li>}
      </ul>
      {row.covers !== null && (
        <p>
          <strong>{many(row.covers, "cover")} in all</strong>
        </p>
      )}
      {row.menu && (
        <p>
          The menu is {row.menu.state.replace("_", " ")} for {row.menu.covers}.{" "}
          {mayRead("menus") && (
            <Link class="touch" to={`/menus/${row.menu.service}`}>
              See the menu
            </Link>
          )}
        </p>
      )}
    </Opens>
  );
}
