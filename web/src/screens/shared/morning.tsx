import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { DayMark, LeftMark } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { serviceName } from "../../parts/day_words";
import { Place } from "../../parts/frame";
import { Mark, type What } from "../../parts/marks";
import { Box, OnPaper } from "../../parts/paper";
import { Link } from "../../parts/router";
import { Shown } from "../../parts/shown";
import { amount, isNothing, listed, many } from "../../words/amounts";
import { clock, dayName, dayOf, inWords, moment } from "../../words/time";

type Line = DayMark | LeftMark;

const PARTS: [What, string, string][] = [
  ["left", "Left from yesterday", "nothing was left unfinished"],
  ["delivery", "Comes today", "no delivery is expected"],
  ["pull", "Out of the freezer", "nothing is to be taken out"],
  ["dies", "Ends today", "nothing"],
  ["make", "To be made", "nothing"],
  ["cut_off", "Order today", "no cut-off today"],
  ["choose_by", "To be chosen today", "nothing"],
  ["service", "Meals", "none"],
];

/** What is done in the day, and ticked on paper once it is. */
const TO_TICK: ReadonlySet<What> = new Set(["left", "delivery", "pull", "dies", "make", "cut_off"]);

/** One page at seven, on the screen and on paper. */
export function Morning() {
  const report = useReport<Line>("morning");
  const zone = report.said.value?.zone ?? "UTC";
  const today = dayOf(new Date(now.value), zone);
  return (
    <Place title="Morning sheet" under={dayName(today, true)}>
      <OnPaper title="Morning sheet" day={today} />
      <Shown report={report} what="Writing the sheet">
        {(lines) => (
          <>
            <div class="sheet">
              {PARTS.map(([what, title, none]) => {
                const of = lines.filter((line) => line.what === what);
                return (
                  <section key={what} class="stack tight" aria-label={title}>
                    <h2 class="row">
                      <Mark what={what} />
                      {title}
                    </h2>
                    {of.length === 0 && <p class="soft">{none}</p>}
                    {what === "pull" && of.length > 0 && (
                      <p>
                        <Link class="touch" to="/pull">
                          Take out to thaw
                        </Link>
                      </p>
                    )}
                    <ul class="lines">
                      {of.map((line) => (
                        <li key={JSON.stringify(line)}>
                          {TO_TICK.has(what) && <Box />}
                          <Words line={line} zone={zone} />
                        </li>
                      ))}
                    </ul>
                  </section>
                );
              })}
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

function Words({ line, zone }: { line: Line; zone: string }) {
  if (line.what === "left") {
    return (
      <>
        {inWords(line.text)} <span class="soft">since {moment(line.since, zone, now.value)}</span>
        {line.kind === "service" && mayGive("serve") && (
          <>
            {" "}
            <Link to={`/serving/${line.key}`}>Record it</Link>
          </>
        )}
      </>
    );
  }
  const isToday = dayOf(line.at, zone) === dayOf(new Date(now.value), zone);
  const written = isToday ? clock(line.at, zone) : moment(line.at, zone, now.value);
  const at = <span class="figure">{written} </span>;
  switch (line.what) {
    case "delivery":
      return (
        <>
          {at}
          {line.supplier}
          <span class="soft">
            {": "}
            {typeof line.lines === "number"
              ? many(line.lines, "line")
              : line.lines.map((each) => `${each.packs} × ${each.pack} ${each.item}`).join(", ")}
          </span>
        </>
      );
    case "pull":
      return (
        <>
          by {at}
          {amount(line.quantity)} {line.item}{" "}
          <span class="soft">
            {line.label}, {line.area}, for {serviceName(line.service)}
          </span>
        </>
      );
    case "dies":
      return (
        <>
          {amount(line.on_hand)} {line.item}{" "}
          <span class="soft">
            {line.label}, {line.area},{" "}
            {isNothing(line.promised)
              ? "for nobody yet"
              : `${amount(line.promised)} of it for today's meals`}
          </span>
        </>
      );
    case "make":
      return (
        <>
          by {at}
          {amount(line.quantity)} {line.item} <span class="soft">for {line.dish}</span>
        </>
      );
    case "cut_off":
      return (
        <>
          by {at}
          {line.supplier}{" "}
          <span class="soft">
            {many(line.items, "item")} for {moment(line.delivery, zone, now.value)}
          </span>
        </>
      );
    case "choose_by":
      return (
        <>
          by {at}
          {listed(line.dishes)} <span class="soft">for {serviceName(line.service)}</span>
        </>
      );
    case "service":
      return (
        <>
          {at}
          {line.meal}, {line.table} ({line.covers}) <span class="soft">{listed(line.dishes)}</span>
        </>
      );
  }
}
