import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { PickRow } from "../../../door/rows";
import { less, sign } from "../../../door/sums";
import { Button } from "../../../parts/button";
import { type Doing, undoOf, useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount } from "../../../words/amounts";
import { clock, dayOf, inWords, moment, near } from "../../../words/time";

type Other = PickRow["others"][number];

/** Whether more is brought than is wanted, since it is brought in whole pieces. */
export function isRounded({ take, quantity }: PickRow): boolean {
  return take.value !== quantity.value;
}

interface Rows {
  rows: PickRow[];
  doing: Doing;
  zone: string;
}

/** What is brought to the kitchen for one meal, area by area as one walks. */
export function Bringing({ service }: { service: string }) {
  const report = useReport<PickRow>("pick");
  const doing = useDoing(`/pick/${service}`);
  return (
    <Place title="Bring to the kitchen" under={inWords(service)}>
      <Done doing={doing} />
      <Shown report={report} what="Looking what is wanted">
        {(all, zone) => {
          const rows = all.filter((row) => row.service === service);
          const open = rows.filter(({ done }) => !done);
          return (
            <>
              {open.length === 0 && <Nothing>Nothing more is to be brought for it.</Nothing>}
              {partsOf(open).map((part) => (
                <Part key={titleOf(part)} rows={part} doing={doing} zone={zone} />
              ))}
              <Already rows={rows.filter(({ done }) => done)} doing={doing} zone={zone} />
            </>
          );
        }}
      </Shown>
      <p>
        <Link class="touch" to="/pick">
          To all meals
        </Link>
      </p>
    </Place>
  );
}

/** What is fetched in one go: an area's for the dishes, then an area's for each preparation. */
function partsOf(rows: PickRow[]): PickRow[][] {
  const found = new Map<string, PickRow[]>();
  for (const row of rows) {
    const title = titleOf([row]);
    found.set(title, [...(found.get(title) ?? []), row]);
  }
  return [...found.values()];
}

function titleOf([row]: PickRow[]): string {
  const area = row?.area ?? "Stands in the kitchen";
  return row?.preparation ? `${area}, for ${row.preparation}` : area;
}

function bring(row: PickRow, of: Other | PickRow, doing: Doing) {
  const purpose = row.preparation ? { preparation: row.preparation } : { service: row.service };
  const area = of.area === null ? {} : { area: of.area };
  const body = { batch: of.batch, quantity: takenOf(row, of), ...purpose, ...area };
  return doing.act("take_out", body, `${row.item} ${of.label}, ${amount(body.quantity)}`);
}

/** What is brought of a batch: of another one than was picked no more than stands there. */
function takenOf({ take }: PickRow, of: Other | PickRow): PickRow["take"] {
  return "left" in of && sign(less(of.left.value, take.value)) < 0 ? of.left : take;
}

function Part({ rows, doing, zone }: Rows) {
  const title = titleOf(rows);
  const all = async () => {
    for (const row of rows) await bring(row, row, doing);
  };
  return (
    <section class="stack tight narrow" aria-label={title}>
      <div class="row ends">
        <h2>{title}</h2>
        {rows.length > 1 && (
          <Button onClick={() => void all()} disabled={doing.busy.value}>
            All of it<span class="unseen"> from {title}</span>
          </Button>
        )}
      </div>
      <ul class="lines work">
        {rows.map((row) => (
          <Line key={row.batch} row={row} doing={doing} zone={zone} />
        ))}
      </ul>
    </section>
  );
}

function Line({ row, doing, zone }: { row: PickRow; doing: Doing; zone: string }) {
  const isOther = useSignal(false);
  return (
    <li class="stack tight">
      <div class="row ends">
        <span class="stack tight what">
          <strong>
            {amount(row.take)} {row.item}
          </strong>
          {isRounded(row) && <span>{amount(row.quantity)} of it is wanted</span>}
          <span>
            {row.label}
            {row.usable_until && `, use by ${lastly(row.usable_until, zone)}`}
          </span>
        </span>
        <Button kind="main" onClick={() => void bring(row, row, doing)} disabled={doing.busy.value}>
          Brought
          <span class="unseen">
            {" "}
            {row.item} {row.label}
          </span>
        </Button>
      </div>
      {row.others.length > 0 && (
        <div>
          <Button
            kind="quiet"
            pressed={isOther.value}
            onClick={() => {
              isOther.value = !isOther.value;
            }}
          >
            Another batch<span class="unseen"> of {row.item}</span>
          </Button>
        </div>
      )}
      {isOther.value &&
        row.others.map((other) => (
          <Button
            key={other.batch}
            onClick={() => void bring(row, other, doing)}
            disabled={doing.busy.value}
          >
            {other.label}, {other.area}, {amount(other.left)}
            {other.usable_until && `, use by ${lastly(other.usable_until, zone)}`}
          </Button>
        ))}
    </li>
  );
}

/** What stands in the kitchen already, each with its way back. */
function Already({ rows, doing, zone }: Rows) {
  if (rows.length === 0) return null;
  return (
    <section class="stack tight narrow" aria-label="Brought already">
      <h2>Brought already</h2>
      <ul class="lines work">
        {rows.map((row) => {
          const said = `${row.item} ${row.label}, ${amount(row.quantity)}`;
          const command = row.done?.command ?? "";
          return (
            <li key={`${command} ${row.batch}`} class="row ends">
              <span class="what">
                ✓ {said}
                <span class="soft">
                  {row.done && ` ${clock(row.done.at, zone)}`}
                  {row.preparation && `, for ${row.preparation}`}
                </span>
              </span>
              <Button
                onClick={() => void doing.undo(undoOf(command, doing.place, said))}
                disabled={doing.busy.value}
              >
                Undo<span class="unseen"> {said}</span>
              </Button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Until when it may be used: the day where it is the whole of it. */
function lastly(at: string, zone: string): string {
  const isWholeDay = clock(at, zone) === "23:59";
  const today = dayOf(new Date(now.value), zone);
  return isWholeDay ? near(dayOf(at, zone), today) : moment(at, zone, now.value);
}
