import "../../../look/menus.css";
import "../../../look/kitchen.css";
import { type Signal, useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { DishRow, ServedRow } from "../../../door/rows";
import { me } from "../../../door/session";
import { sign } from "../../../door/sums";
import { Button } from "../../../parts/button";
import { Choice, Field } from "../../../parts/fields";
import { Place } from "../../../parts/frame";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { amount, many } from "../../../words/amounts";
import { answersTo, plain } from "../../../words/find";
import { dishName, serviceTitle } from "../../../words/menus";
import { clock, dayName, dayOf } from "../../../words/time";
import { firstDay, lastDay, monthAfter, monthName, monthOf } from "./months";

const LETTERS = 3;
const YEARS_BACK = 12;

/** What was given to whom: month by month, or a dish by three letters of its name. */
export function Served() {
  const typed = useSignal("");
  const dish = useSignal<DishRow | null>(null);
  const today = dayOf(new Date(now.value), me.value?.house.zone ?? "UTC");
  const month = useSignal(monthOf(today));
  const isSought = plain(typed.value).length >= LETTERS;
  return (
    <Place title="What was served" under="By month, or when a dish was served last">
      <div class="narrow">
        <Field
          label="Find a dish"
          hint="Three letters of its name."
          value={typed}
          enterKeyHint="search"
          onChange={() => {
            dish.value = null;
          }}
        />
      </div>
      {isSought && !dish.value && <Found typed={typed.value} dish={dish} />}
      {dish.value && <OfDish row={dish.value} today={today} dish={dish} />}
      {!isSought && <OfMonth month={month} today={today} />}
    </Place>
  );
}

/** The dishes that answer to what was typed, each with when which table last had it. */
function Found({ typed, dish }: { typed: string; dish: Signal<DishRow | null> }) {
  const report = useReport<DishRow>("dishes");
  return (
    <Shown report={report} what="Looking for the dish">
      {(rows) => {
        const found = rows.filter((row) => answersTo(row.dish, typed) !== null);
        if (found.length === 0) return <Nothing>No dish of the house is called so.</Nothing>;
        return (
          <ul class="lines rooms narrow" aria-label="Dishes">
            {found.map((row) => (
              <li key={row.id} class="stack tight">
                <strong>{row.dish}</strong>
                <span class="soft">
                  {row.last_served.length === 0
                    ? "never served yet"
                    : row.last_served
                        .map(({ table, date }) => `${table} ${dayName(date)} ${date.slice(0, 4)}`)
                        .join(" · ")}
                </span>
                {row.last_served.length > 0 && (
                  <div>
                    <Button
                      onClick={() => {
                        dish.value = row;
                      }}
                    >
                      Every time<span class="unseen"> {row.dish} was served</span>
                    </Button>
                  </div>
                )}
              </li>
            ))}
          </ul>
        );
      }}
    </Shown>
  );
}

interface OfDishProps {
  row: DishRow;
  today: string;
  dish: Signal<DishRow | null>;
}

/** Every time a dish was served in the last year. */
function OfDish({ row, today, dish }: OfDishProps) {
  const from = firstDay(monthAfter(monthOf(today), -YEARS_BACK));
  const report = useReport<ServedRow>("served", { from, dish: row.id });
  return (
    <section class="stack" aria-label={row.dish}>
      <div class="row ends">
        <h2>{row.dish}</h2>
        <Button
          onClick={() => {
            dish.value = null;
          }}
        >
          Other dishes
        </Button>
      </div>
      <p class="soft">Since {monthName(monthOf(from))}</p>
      <Shown report={report} what="Looking back">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>It was not served since then.</Nothing>
          ) : (
            <Meals rows={rows} zone={zone} />
          )
        }
      </Shown>
    </section>
  );
}

/** All that was served in a month, one table or all. */
function OfMonth({ month, today }: { month: Signal<string>; today: string }) {
  const table = useSignal("");
  const days = { from: firstDay(month.value), to: lastDay(month.value) };
  const report = useReport<ServedRow>("served", days);
  const step = (by: number) => {
    month.value = monthAfter(month.value, by);
  };
  return (
    <>
      <fieldset class="kitchen-keys months">
        <legend class="unseen">Month</legend>
        <Button onClick={() => step(-1)}>
          <span aria-hidden="true">←</span>
          <span class="unseen">The month before</span>
        </Button>
        <strong class="month" role="status">
          {monthName(month.value)}
        </strong>
        <Button onClick={() => step(1)} disabled={month.value >= monthOf(today)}>
          <span aria-hidden="true">→</span>
          <span class="unseen">The month after</span>
        </Button>
      </fieldset>
      <Shown report={report} what="Looking back">
        {(rows, zone) => (
          <>
            <Tables rows={rows} table={table} />
            {rows.length === 0 ? (
              <Nothing>Nothing was recorded as served in this month.</Nothing>
            ) : (
              <Meals
                rows={rows.filter((row) => table.value === "" || row.table === table.value)}
                zone={zone}
              />
            )}
          </>
        )}
      </Shown>
      <p>
        <a class="touch" href={`/api/reports/served.csv?from=${days.from}&to=${days.to}`} download>
          {monthName(month.value)} as a sheet (CSV)
        </a>
      </p>
    </>
  );
}

function Tables({ rows, table }: { rows: ServedRow[]; table: Signal<string> }) {
  const tables = [...new Set(rows.map((row) => row.table))];
  if (tables.length < 2) return null;
  return (
    <Choice
      legend="Whose table"
      value={table}
      options={["", ...tables].map((name) => ({ value: name, label: name || "all" }))}
    />
  );
}

/** Meal by meal, the latest first, each with its dishes. */
function Meals({ rows, zone }: { rows: ServedRow[]; zone: string }) {
  const services = [...new Set(rows.map(({ service }) => service))];
  return (
    <ul class="lines served-meals">
      {services.map((service) => (
        <Meal key={service} rows={rows.filter((row) => row.service === service)} zone={zone} />
      ))}
    </ul>
  );
}

function Meal({ rows, zone }: { rows: ServedRow[]; zone: string }) {
  const [first] = rows;
  if (!first) return null;
  const thisYear = dayOf(new Date(now.value), zone).slice(0, 4);
  return (
    <li class="stack tight">
      <span>
        <strong>
          {dayName(first.date)}
          {thisYear === first.date.slice(0, 4) ? "" : ` ${first.date.slice(0, 4)}`}{" "}
          {serviceTitle(first.meal, first.table)}
        </strong>{" "}
        <span class="soft">
          {clock(first.at, zone)}, {many(first.covers, "cover")}
          {first.confirmed_by && `, confirmed by ${first.confirmed_by}`}
        </span>
      </span>
      <ul class="notes">
        {rows.map((row) => (
          <li key={row.course + row.dish + row.variant}>
            {dishName(row)}
            {row.portions !== row.covers && `, ${many(row.portions, "portion")}`}
            {row.portions !== row.planned && ` of ${row.planned}`}
            {row.left_over > 0 && `; ${row.left_over} left over${wasted(row)}`}
          </li>
        ))}
      </ul>
    </li>
  );
}

function wasted({ left_overs }: ServedRow): string {
  const lost = left_overs.filter((left) => sign(left.wasted.value) > 0);
  if (lost.length === 0) return "";
  return `, of that ${lost.map((left) => amount(left.wasted)).join(" and ")} wasted`;
}
