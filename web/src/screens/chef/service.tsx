import "../../look/menus.css";
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { CoverageRow, MenuRow } from "../../door/rows";
import { mayGive, mayRead } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing, Said, Wrong } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { CAUTION, sentence } from "../../words/menus";
import { dayOf } from "../../words/time";
import { Changes } from "./changes";
import { Choosing } from "./choosing";
import { CoversSaid } from "./covers_said";
import { DishLine } from "./dish_line";
import { type Swap, SwapKey, Swapped } from "./kitchen/swapped";
import { Promised } from "./promised";
import { Head, type KnownProps, Under } from "./service_head";

/** One meal of one table: its courses, what covers them, and what can be decided. */
export function ServicePlace({ id }: { id: string }) {
  const report = useReport<MenuRow>("menus");
  const said = report.said.value;
  const row = said?.rows.find(({ service }) => service === id);
  if (said && row) return <Known row={row} zone={said.zone} />;
  return (
    <Place title={sentence(serviceName(id))}>
      <Shown report={report} what="Looking for the menu">
        {() => (
          <Nothing>
            No menu of these days stands here.{" "}
            <Link class="touch" to="/menus">
              All menus
            </Link>
          </Nothing>
        )}
      </Shown>
    </Place>
  );
}

function Known({ row, zone }: KnownProps) {
  const isAhead = row.state === "confirmed" || row.state === "proposed";
  if (isAhead && mayRead("coverage")) return <Covered row={row} zone={zone} />;
  return <Service row={row} zone={zone} coverage={null} />;
}

function Covered({ row, zone }: KnownProps) {
  const report = useReport<CoverageRow>("coverage", { service: row.service });
  // what was worked out before it changed its state says nothing of it any more
  const rows = report.said.value?.rows.filter(({ state }) => state === row.state) ?? [];
  return (
    <Service row={row} zone={zone} coverage={rows}>
      {report.problem.value && <Wrong problem={report.problem.value} />}
    </Service>
  );
}

interface ServiceProps extends KnownProps {
  /** What covers it; null for who is not told of stock. */
  coverage: CoverageRow[] | null;
  children?: ComponentChildren;
}

function Service({ row, zone, coverage, children }: ServiceProps) {
  const justConfirmed = useSignal(false);
  const swap = useSignal<Swap | null>(null);
  const isOpen = row.state === "proposed" && Date.parse(row.at) > now.value;
  // who was choosing is told when somebody else has chosen meanwhile, before the screen becomes another
  const isChoosing = useSignal(isOpen);
  if ((isOpen || isChoosing.value) && mayGive("confirm")) {
    return (
      <Choosing
        row={row}
        zone={zone}
        coverage={coverage}
        head={
          <>
            <Head row={row} zone={zone} />
            <CoversSaid row={row} zone={zone} />
            {children}
          </>
        }
        onConfirmed={() => {
          justConfirmed.value = true;
          isChoosing.value = false;
        }}
        onLookAgain={() => {
          isChoosing.value = false;
        }}
      />
    );
  }
  return (
    <>
      <Place title={sentence(serviceName(row.service))} under={<Under row={row} zone={zone} />}>
        <Head row={row} zone={zone} />
        <CoversSaid row={row} zone={zone} />
        {children}
        {justConfirmed.value && !coverage && (
          <Said kind="done">
            <strong>Confirmed for {row.covers}. The kitchen knows.</strong>
          </Said>
        )}
        {row.state === "confirmed" && coverage && (
          <Promised row={row} coverage={coverage} zone={zone} fresh={justConfirmed.value} />
        )}
        {swap.value && (
          <Swapped
            row={row}
            swap={swap.value}
            onUndone={() => {
              swap.value = null;
            }}
          />
        )}
        <ServeKey row={row} zone={zone} />
        <div class="courses">
          {row.courses.map(({ course, dishes }) => (
            <section key={course} class="stack tight" aria-label={course}>
              <h2>{sentence(course)}</h2>
              <ul class="lines">
                {dishes.map((dish) => (
                  <li key={dish.dish + dish.variant}>
                    <DishLine row={row} course={course} dish={dish} zone={zone} coverage={coverage}>
                      <strong>
                        {dish.name}
                        {dish.variant && `, ${dish.variant}`}
                        {dish.portions !== null && ` (${dish.portions})`}
                      </strong>
                    </DishLine>
                    {row.state === "confirmed" && mayGive("swap_dish") && (
                      <SwapKey
                        row={row}
                        course={course}
                        dish={dish}
                        onSwapped={(of) => {
                          swap.value = of;
                        }}
                      />
                    )}
                  </li>
                ))}
              </ul>
            </section>
          ))}
        </div>
        <p class="soft">{CAUTION}</p>
        {row.state === "taken_off" && mayGive("propose") && (
          <Link class="button" to={`/menus/propose/${row.service}`}>
            Propose it again
          </Link>
        )}
      </Place>
      {row.state === "confirmed" && <Changes row={row} zone={zone} />}
    </>
  );
}

/** On the day of a meal, and after it: where it is recorded as served, and what was left over. */
function ServeKey({ row, zone }: KnownProps) {
  const isDue = row.date <= dayOf(new Date(now.value), zone);
  const isServed = row.state === "served" || (row.state === "confirmed" && isDue);
  if (!isServed || !mayGive("serve")) return null;
  return (
    <div>
      <Link class="button" to={`/serving/${row.service}`}>
        {row.state === "served" ? "Left-overs, or take it back" : "Record that it was served"}
      </Link>
    </div>
  );
}
