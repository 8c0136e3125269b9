import "../../../look/kitchen.css";
import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { newId } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { PreparationRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { Button } from "../../../parts/button";
import { serviceName } from "../../../parts/day_words";
import { type Doing, undoOf, useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { NotFor } from "../../../parts/not_for";
import { Opens } from "../../../parts/opens";
import { Link } from "../../../parts/router";
import { Nothing, Said } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount, isNothing, listed, many } from "../../../words/amounts";
import { CAUTION, dishName } from "../../../words/menus";
import { clock, dayName, dayOf, moment, near } from "../../../words/time";
import { MadeOtherwise } from "./made_otherwise";

const DAYS = "7";

/** What is to be made on which day, in the order of making; each is written down with one key. */
export function Preparations() {
  const report = useReport<PreparationRow>("preparations", { days: DAYS });
  const doing = useDoing("/preparations");
  const zone = report.said.value?.zone ?? "UTC";
  const today = dayOf(new Date(now.value), zone);
  return (
    <Place title="Preparation list" under="What the kitchen makes for the menus that are chosen">
      <Done doing={doing} />
      <Shown report={report} what="Working out what is to be made">
        {(rows) => (
          <>
            {rows.every(({ done }) => done) && (
              <Nothing>
                Nothing is to be made in the next {DAYS} days: it is all there, or no menu needs it.
              </Nothing>
            )}
            {daysOf(rows).map((day) => (
              <Day key={day} day={day} today={today} rows={rows} zone={zone} doing={doing} />
            ))}
            <Already rows={rows.filter(({ done }) => done)} zone={zone} doing={doing} />
          </>
        )}
      </Shown>
      <p class="soft">{CAUTION}</p>
      <p>
        <a class="touch" href={`/api/preparations.pdf?days=${DAYS}`} target="_blank" rel="noopener">
          The list on paper (PDF)
        </a>
      </p>
    </Place>
  );
}

function daysOf(rows: PreparationRow[]): string[] {
  return [...new Set(rows.filter(({ done }) => !done).map(({ day }) => day))];
}

interface Of {
  zone: string;
  doing: Doing;
}

interface DayProps extends Of {
  day: string;
  today: string;
  rows: PreparationRow[];
}

function Day({ day, today, rows, zone, doing }: DayProps) {
  const isNear = ["today", "tomorrow"].includes(near(day, today));
  return (
    <section class="stack tight" aria-label={dayName(day, true)}>
      <h2>
        {dayName(day, true)} {isNear && <span class="soft">{near(day, today)}</span>}
      </h2>
      <ul class="lines work">
        {rows
          .filter((row) => row.day === day && !row.done)
          .map((row) => (
            <Line key={row.making} row={row} zone={zone} doing={doing} />
          ))}
      </ul>
    </section>
  );
}

function Line({ row, zone, doing }: Of & { row: PreparationRow }) {
  const isOtherwise = useSignal(false);
  const name = `${amount(row.quantity)} ${row.preparation}`;
  const make = () => {
    const { recipe, quantity, area } = row;
    void doing.act("make", { recipe, quantity, child: newId(), area }, name);
  };
  return (
    <li class="row ends">
      <span class="stack tight what">
        <strong>{name}</strong>
        {row.full_recipes && <span>{many(Number(row.recipes), "full recipe")}</span>}
        <span>
          begin <span class="figure">{clock(row.start, zone)}</span>, ready{" "}
          <span class="figure">{moment(row.ready, zone, now.value)}</span>
        </span>
        {row.late && (
          <Said kind="due">
            <strong>Not ready in time any more.</strong>
          </Said>
        )}
        <For row={row} />
        <NotForThem row={row} zone={zone} />
        {!isNothing(row.there) && <span>beside the {amount(row.there)} that stand there</span>}
        <span>
          <Ingredients row={row} />
        </span>
      </span>
      {mayGive("make") && (
        <span class="row">
          <Button
            kind="quiet"
            onClick={() => {
              isOtherwise.value = true;
            }}
          >
            Otherwise<span class="unseen"> {row.preparation}</span>
          </Button>
          <Button kind="main" onClick={make} disabled={doing.busy.value}>
            Made<span class="unseen"> {name}</span>
          </Button>
        </span>
      )}
      {isOtherwise.value && (
        <MadeOtherwise
          row={row}
          doing={doing}
          onClose={() => {
            isOtherwise.value = false;
          }}
        />
      )}
    </li>
  );
}

function For({ row }: { row: PreparationRow }) {
  return (
    <>
      {row.wanted.map(({ service, dish, into, quantity }) => (
        <span key={service + dish + into} class="soft">
          {row.wanted.length > 1 && `${amount(quantity)} `}for {into && `${into}, for `}
          {dish}, {dayName(service.slice(0, 10))} {serviceName(service)}
        </span>
      ))}
    </>
  );
}

/** Who cannot eat what it is made for, each once however much of it is for the same meal. */
function NotForThem({ row, zone }: { row: PreparationRow; zone: string }) {
  const found = new Map(
    row.wanted.flatMap(({ service, conflicts }) =>
      conflicts.map((each) => [`${service}${JSON.stringify(each)}`, each] as const),
    ),
  );
  return (
    <>
      {[...found].map(([key, each]) => (
        <NotFor
          key={key}
          against={each}
          dish={dishName({ name: each.dish, variant: each.variant })}
          state="confirmed"
          zone={zone}
        />
      ))}
    </>
  );
}

/** What goes into it and where that stands; what is short is said before it is opened. */
function Ingredients({ row }: { row: PreparationRow }) {
  const short = row.lines.filter((line) => !isNothing(line.short));
  return (
    <>
      <Opens
        figure={`of ${many(row.lines.length, "item")}`}
        title={`${amount(row.quantity)} ${row.preparation}`}
      >
        <ul class="lines">
          {row.lines.map((line) => (
            <li key={line.item_id}>
              <strong>
                {amount(line.need)} {line.item}
              </strong>{" "}
              <span class="soft">{line.from.map(fromSaid).join("; ")}</span>
              {!isNothing(line.short) && <strong> {amount(line.short)} short</strong>}
            </li>
          ))}
        </ul>
        {row.method && <p>{row.method}</p>}
        <p>
          {row.contains.length > 0 && <strong>Contains {listed(row.contains)}. </strong>}
          {row.may_contain.length > 0 && `May contain ${listed(row.may_contain)}. `}
          {row.unknown.length > 0 && `Not known: ${listed(row.unknown)}. `}
          {CAUTION}
        </p>
      </Opens>
      {short.length > 0 && (
        <strong> {listed(short.map((line) => `${amount(line.short)} ${line.item}`))} short</strong>
      )}
    </>
  );
}

function fromSaid(part: PreparationRow["lines"][number]["from"][number]): string {
  if (part.label)
    return `${amount(part.quantity)} ${part.label}${part.area ? `, ${part.area}` : ""}`;
  if (part.delivery) return `${amount(part.quantity)} comes with a delivery`;
  if (part.harvest) return `${amount(part.quantity)} from the garden`;
  return `${amount(part.quantity)} made before`;
}

/** What was made today, with its label, how it cools, and the way back. */
function Already({ rows, zone, doing }: Of & { rows: PreparationRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section class="stack tight" aria-label="Made today">
      <h2>Made today</h2>
      <ul class="lines work">
        {rows.map((row) => {
          const said = `${row.preparation} ${row.done?.label}, ${amount(row.quantity)}`;
          return (
            <li key={row.done?.batch} class="row ends">
              <span class="stack tight what">
                <span>
                  ✓ {said} <span class="soft">{clock(row.start, zone)}</span>
                </span>
                {row.usable_until && (
                  <span class="soft">use by {moment(row.usable_until, zone, now.value)}</span>
                )}
              </span>
              <span class="row">
                {row.is_cooked && (
                  <Link class="button quiet" to="/round/cooling">
                    Temperature<span class="unseen"> of {said}</span>
                  </Link>
                )}
                <Link class="button quiet" to={`/labels/${row.done?.label}`}>
                  Label<span class="unseen"> of {said}</span>
                </Link>
                <Button
                  onClick={() =>
                    void doing.undo(undoOf(row.done?.command ?? "", doing.place, said))
                  }
                  disabled={doing.busy.value}
                >
                  Undo<span class="unseen"> {said}</span>
                </Button>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
