import { now } from "../../../door/clock";
import { newId } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { PullRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { serviceName } from "../../../parts/day_words";
import { type Doing, undoOf, useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Box, OnPaper } from "../../../parts/paper";
import { Nothing, Said } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { Thawing } from "../../../parts/thawing";
import { amount } from "../../../words/amounts";
import { clock, dayName, dayOf, moment, near } from "../../../words/time";

/** What is taken out of the freezers today to thaw, freezer by freezer as one walks. */
export function Pull() {
  const report = useReport<PullRow>("pull");
  const doing = useDoing("/pull");
  const zone = report.said.value?.zone ?? "UTC";
  const today = dayOf(new Date(now.value), zone);
  return (
    <Place title="Take out to thaw" under={dayName(today, true)}>
      <OnPaper title="Take out to thaw" day={today} />
      <Done doing={doing} />
      <Shown report={report} what="Looking what must thaw">
        {(rows) => (
          <>
            {rows.every(({ done }) => done) && (
              <Nothing>Nothing more is to be taken out before tomorrow morning.</Nothing>
            )}
            <Late rows={rows.filter(({ done, late }) => late && !done)} doing={doing} zone={zone} />
            {areasOf(rows).map((area) => (
              <section key={area} class="stack tight narrow" aria-label={area}>
                <h2>{area}</h2>
                <ul class="lines work">
                  {rows
                    .filter((row) => row.area === area && (row.done || !row.late))
                    .map((row) => (
                      <Line key={keyOf(row)} row={row} doing={doing} zone={zone} />
                    ))}
                </ul>
              </section>
            ))}
            {rows.some(({ done }) => !done) && <Thawing />}
            <div>
              <Button onClick={() => print()}>Print it</Button>
            </div>
          </>
        )}
      </Shown>
    </Place>
  );
}

function areasOf(rows: PullRow[]): string[] {
  const walked = rows.filter(({ done, late }) => done || !late).map(({ area }) => area);
  return [...new Set(walked)];
}

function keyOf({ batch, done }: PullRow): string {
  return `${batch} ${done?.command ?? ""}`;
}

interface Rows {
  doing: Doing;
  zone: string;
}

/** What cannot be thawed in time any more: who is told, and what there is to do. */
function Late({ rows, doing, zone }: Rows & { rows: PullRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section class="stack tight narrow" aria-label="No longer in time">
      <h2>No longer in time</h2>
      <Said kind="due">
        <strong>Tell the chef now.</strong>
        <span>
          In the cold room it thaws too late for its meal. A smaller piece thaws sooner; or the chef
          cooks something else. Never on the worktop: local codes and the house's own rules come
          first.
        </span>
      </Said>
      <ul class="lines work">
        {rows.map((row) => (
          <Line key={keyOf(row)} row={row} doing={doing} zone={zone} />
        ))}
      </ul>
    </section>
  );
}

function Line({ row, doing, zone }: Rows & { row: PullRow }) {
  const said = `${row.item} ${row.label}, ${amount(row.take)}`;
  const takeOut = () => {
    const { batch, take, into } = row;
    const area = into === null ? {} : { area: into };
    void doing.act("thaw", { batch, quantity: take, child: newId(), ...area }, said);
  };
  return (
    <li class="row ends">
      <Box />
      <span class="stack tight what">
        <strong>
          {amount(row.take)} {row.item} <span class="soft nowrap">{row.label}</span>
        </strong>
        <Wanted row={row} zone={zone} />
        {row.done ? (
          <span>
            ✓ taken out {clock(row.done.at, zone)}, thawed by{" "}
            {moment(row.thawed_at, zone, now.value)}
          </span>
        ) : (
          <span>
            {row.late ? "Should have been out by " : "Out by "}
            <span class="figure">{moment(row.out_by, zone, now.value)}</span>
            {row.not_before && (
              <>
                , not before <span class="figure">{moment(row.not_before, zone, now.value)}</span>{" "}
                or it does not keep until its meal
              </>
            )}
            {row.into && `; into the ${row.into}`}
          </span>
        )}
        {row.usable_until && (row.done || !row.not_before) && (
          <span class="soft">
            {row.done ? "Use" : "Taken out now: use"} by {moment(row.usable_until, zone, now.value)}
          </span>
        )}
      </span>
      {row.done ? (
        <Button
          onClick={() => void doing.undo(undoOf(row.done?.command ?? "", doing.place, said))}
          disabled={doing.busy.value}
        >
          Undo<span class="unseen"> {said}</span>
        </Button>
      ) : (
        <Button
          kind={row.not_before ? "plain" : "main"}
          onClick={takeOut}
          disabled={doing.busy.value}
        >
          Taken out<span class="unseen"> {said}</span>
        </Button>
      )}
    </li>
  );
}

/** For which dish of which meal, and how much of it where more is taken out than is wanted. */
function Wanted({ row, zone }: { row: PullRow; zone: string }) {
  const today = dayOf(new Date(now.value), zone);
  const isMore = row.take.value !== row.quantity.value && row.wanted.length > 0;
  return (
    <>
      {row.wanted.map(({ service, dish, quantity }) => (
        <span key={service + dish}>
          {(isMore || row.wanted.length > 1) && `${amount(quantity)} of it `}for {dish},{" "}
          {near(service.slice(0, 10), today)} {serviceName(service)}
        </span>
      ))}
    </>
  );
}
