import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { ServingRow } from "../../../door/rows";
import { mayRead } from "../../../door/session";
import { Place } from "../../../parts/frame";
import { below, Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { serviceTitle } from "../../../words/menus";
import { clock, dayOf, near } from "../../../words/time";
import { OneService } from "./one_service";

/** What is served today, and what nobody has recorded; or one of them. */
export function Serving() {
  const [date, meal, table] = below("/serving");
  if (date && meal && table) {
    const id = `${date}/${meal}/${table}`;
    return <OneService key={id} id={id} />;
  }
  return <Services />;
}

function Services() {
  const report = useReport<ServingRow>("serving");
  return (
    <Place title="Serving today" under="One key where it was as planned; else what was otherwise">
      <Shown report={report} what="Looking at what is served">
        {(rows, zone) => {
          const today = dayOf(new Date(now.value), zone);
          const open = rows.filter(({ state }) => state === "confirmed");
          return (
            <>
              <Rows
                title="Nobody has recorded these"
                rows={open.filter(({ date }) => date < today)}
                zone={zone}
              />
              <Rows title="Today" rows={open.filter(({ date }) => date === today)} zone={zone} />
              {open.length === 0 && <Nothing>Nothing more is to be served today.</Nothing>}
              <Rows
                title="Served"
                rows={rows.filter(({ state }) => state === "served")}
                zone={zone}
              />
            </>
          );
        }}
      </Shown>
      {mayRead("served") && (
        <p>
          <Link class="touch" to="/served">
            What was served before
          </Link>
        </p>
      )}
    </Place>
  );
}

function Rows({ title, rows, zone }: { title: string; rows: ServingRow[]; zone: string }) {
  if (rows.length === 0) return null;
  const today = dayOf(new Date(now.value), zone);
  return (
    <section class="stack tight" aria-label={title}>
      <h2>{title}</h2>
      <ul class="lines rooms">
        {rows.map((row) => (
          <li key={row.service}>
            <Link to={`/serving/${row.service}`}>
              <span class="stack tight">
                <span>
                  {row.date !== today && `${near(row.date, today)} `}
                  <span class="figure">{clock(row.at, zone)}</span>{" "}
                  <strong>{serviceTitle(row.meal, row.table)}</strong>, {many(row.covers, "cover")}
                </span>
                <span class="soft">{row.dishes.map(({ name }) => name).join(" · ")}</span>
                {row.state === "served" && (
                  <span>✓ served{row.left_overs.length > 0 && `, ${left(row)} left over`}</span>
                )}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

function left(row: ServingRow): string {
  return many(
    row.left_overs.reduce((sum, { portions }) => sum + portions, 0),
    "portion",
  );
}
