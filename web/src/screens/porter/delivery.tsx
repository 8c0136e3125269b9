import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ExpectedLine, ExpectedRow, HouseRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { ActBar, Button } from "../../parts/button";
import { serviceName } from "../../parts/day_words";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount, isNothing } from "../../words/amounts";
import { dayOf, moment, near } from "../../words/time";
import { answer, closeAnswer, forgetAnswer, takeCode, takeItem } from "./at_the_door";
import { CodeAnswer } from "./code_answer";
import { DriverGone } from "./driver_gone";
import { DriverLeaves } from "./driver_leaves";
import { driversLeft } from "./driver_left";
import { linesWords } from "./expected";
import { Finder } from "./finder";
import { pathOf } from "./keys";
import { JustRecorded, RecordedBefore, ToPutAway } from "./recorded_here";

/** One delivery, line by line; a code or three letters opens the line that it means. */
export function Delivery({ order }: { order: string }) {
  const report = useReport<ExpectedRow>("expected");
  const zone = report.said.value?.zone ?? "UTC";
  const found = report.said.value?.rows.find((row) => row.order === order);
  const suppliers = useReport<HouseRow>("house").said.value?.rows[0]?.suppliers;
  // an order of which everything has come is expected no more, and still has its supplier
  const supplier = suppliers?.find(({ id }) => id === order.split("/")[0])?.supplier;
  const these = found ? [found] : [];
  const leaving = useSignal(false);
  const hasLeft = driversLeft.value.some((one) => one.order === order);
  useEffect(forgetAnswer, []);
  if (found && leaving.value) {
    return <DriverLeaves order={found} onBack={() => (leaving.value = false)} />;
  }
  return (
    <>
      <Place
        title={found?.supplier ?? supplier ?? "A delivery"}
        under={found && `${moment(found.at, zone, now.value)} · ${linesWords(found)}`}
      >
        {report.said.value && (
          <Finder
            label="Code or item"
            onTyping={closeAnswer}
            onCode={(text) => takeCode(text, these, order)}
            onItem={(item) => takeItem(item, these, order)}
            beside={(item) =>
              found?.lines.some(({ item_id }) => item_id === item.id) ? "on this order" : null
            }
          />
        )}
        {answer.value && <CodeAnswer answer={answer.value} zone={zone} now={now.value} />}
        <DriverGone order={order} />
        <JustRecorded order={order} />
        <div class="columns main-first">
          <Shown report={report} what="Looking at the order">
            {() => (found ? <Lines order={found} zone={zone} /> : <Done />)}
          </Shown>
          <RecordedBefore order={order} />
        </div>
        <ToPutAway />
        <p>
          <Link class="touch" to="/goods-in">
            To everything that is expected
          </Link>
        </p>
      </Place>
      {found && !hasLeft && mayGive("close_delivery") && (
        <ActBar>
          <Button kind="main" onClick={() => (leaving.value = true)}>
            The driver leaves
          </Button>
        </ActBar>
      )}
    </>
  );
}

function Done() {
  return <Nothing>Nothing more is awaited of this delivery.</Nothing>;
}

function Lines({ order, zone }: { order: ExpectedRow; zone: string }) {
  return (
    <ul class="lines" aria-label="What was ordered">
      {awaitedFirst(order.lines).map((line) => (
        <li key={line.pack_id}>
          <Link to={pathOf({ ...line, order, line }, order.order)}>
            <span class="row ends base">
              <strong>{line.item}</strong>
              <span class="figure">{stateOf(line)}</span>
            </span>
            <span class="row ends base small">
              <span>
                {line.packs} x {line.pack}
                {line.counted && <span class="soft"> {amount(line.quantity)}</span>}
              </span>
              <span>{line.area}</span>
            </span>
            <span class="row ends base small soft">
              <span>{forWhat(line, zone)}</span>
              {!isNothing(line.received) && <span>{amount(line.received)} came</span>}
            </span>
          </Link>
        </li>
      ))}
      {/* a copy that was kept before there were any has none */}
      {(order.in_words ?? []).map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}

function awaitedFirst(lines: ExpectedLine[]): ExpectedLine[] {
  const isHere = (line: ExpectedLine) => Number(isNothing(line.outstanding));
  return [...lines].sort((a, b) => isHere(a) - isHere(b));
}

/** In words what of a line is still awaited. */
function stateOf(line: ExpectedLine): string {
  if (isNothing(line.outstanding)) return "all here";
  return line.counted ? `${amount(line.outstanding)} awaited` : "awaited";
}

/** The first meal a line is for, and how many more there are. */
function forWhat(line: ExpectedLine, zone: string): string {
  const [first, ...more] = line.for;
  if (!first) return "";
  const [day = ""] = first.split("/");
  const when = near(day, dayOf(new Date(now.value), zone));
  return `for ${serviceName(first)} ${when}${more.length ? ` and ${more.length} more` : ""}`;
}
