import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { PickRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { Box, OnPaper } from "../../../parts/paper";
import { below, Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount } from "../../../words/amounts";
import { clock, dayName, dayOf, near } from "../../../words/time";
import { Bringing, isRounded } from "./bringing";

/** What is brought to the kitchen, meal by meal: those of today and tomorrow. */
export function Pick() {
  const [date, meal, table] = below("/pick");
  if (date && meal && table) return <Bringing service={`${date}/${meal}/${table}`} />;
  return <Meals />;
}

function Meals() {
  const report = useReport<PickRow>("pick");
  const zone = report.said.value?.zone ?? "UTC";
  const today = dayOf(new Date(now.value), zone);
  return (
    <Place title="Bring to the kitchen" under="For the meals of today and tomorrow">
      <OnPaper title="Bring to the kitchen" day={today} />
      <Shown report={report} what="Looking what is wanted">
        {(rows) => (
          <>
            {rows.length === 0 && <Nothing>Nothing is to be brought today or tomorrow.</Nothing>}
            <ul class="lines narrow rooms on-screen" aria-label="Meals">
              {servicesOf(rows).map((of) => (
                <Meal key={of[0]?.service} rows={of} zone={zone} today={today} />
              ))}
            </ul>
            <div class="on-paper picked" aria-hidden="true">
              {servicesOf(rows).map((of) => (
                <Printed key={of[0]?.service} rows={of} zone={zone} />
              ))}
            </div>
            <div>
              <Button onClick={() => print()}>Print it</Button>
            </div>
          </>
        )}
      </Shown>
    </Place>
  );
}

/** The rows meal by meal, in the order of time. */
function servicesOf(rows: PickRow[]): PickRow[][] {
  const found = new Map<string, PickRow[]>();
  for (const row of rows) found.set(row.service, [...(found.get(row.service) ?? []), row]);
  return [...found.values()].sort((one, other) => atOf(one).localeCompare(atOf(other)));
}

function atOf([row]: PickRow[]): string {
  return row?.at ?? "";
}

function Meal({ rows, zone, today }: { rows: PickRow[]; zone: string; today: string }) {
  const [first] = rows;
  if (!first) return null;
  const open = rows.filter(({ done }) => !done).length;
  return (
    <li>
      <Link to={`/pick/${first.service}`}>
        <span class="row ends">
          <span>
            {near(first.day, today)} <span class="figure">{clock(first.at, zone)}</span>{" "}
            {first.meal}, {first.table}
          </span>
          {open > 0 ? (
            <span class="nowrap">{open} to bring</span>
          ) : (
            <span class="nowrap">✓ all brought</span>
          )}
        </span>
      </Link>
    </li>
  );
}

/** A meal on paper: what is to be brought still, area by area. */
function Printed({ rows, zone }: { rows: PickRow[]; zone: string }) {
  const open = rows.filter(({ done }) => !done);
  const [first] = open;
  if (!first) return null;
  return (
    <section>
      <h3>
        {dayName(first.day)} {clock(first.at, zone)} {first.meal}, {first.table}
      </h3>
      <ul>
        {open.map((row) => (
          <li key={`${row.batch} ${row.preparation}`}>
            <Box /> {amount(row.take)} {row.item}
            {isRounded(row) && ` (${amount(row.quantity)} wanted)`}, {row.label}, {row.area}
            {row.preparation && `, for ${row.preparation}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
