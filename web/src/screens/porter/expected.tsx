import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ExpectedRow, ItemRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { isNothing, many } from "../../words/amounts";
import { clock, dayName, dayOf, moment } from "../../words/time";
import { answer, closeAnswer, forgetAnswer, takeCode, takeItem } from "./at_the_door";
import { CodeAnswer } from "./code_answer";
import { Finder } from "./finder";
import { JustRecorded, RecordedBefore, ToPutAway } from "./recorded_here";

/** What is expected at the back door: what is late, what comes today, and later days behind one tap. */
export function Expected() {
  const report = useReport<ExpectedRow>("expected");
  const zone = report.said.value?.zone ?? "UTC";
  const orders = report.said.value?.rows ?? [];
  useEffect(forgetAnswer, []);
  return (
    <Place title="Goods in" under="What is expected at the back door">
      <JustRecorded order={null} />
      <div class="columns main-first">
        <div class="stack">
          <Shown report={report} what="Looking at what is expected">
            {(rows) => <Sorted orders={rows} zone={zone} />}
          </Shown>
        </div>
        <section class="stack" aria-labelledby="on-which">
          <h2 id="on-which">On which order is it?</h2>
          {report.said.value && (
            <Finder
              label="Code or item"
              onTyping={closeAnswer}
              onCode={(text) => takeCode(text, orders, null)}
              onItem={(item) => takeItem(item, orders, null)}
              beside={(item) => whoBrings(item, awaitedByNow(orders, zone))}
            />
          )}
          {answer.value && <CodeAnswer answer={answer.value} zone={zone} now={now.value} />}
          <RecordedBefore order={null} />
          <ToPutAway />
          <p>
            <Link class="touch" to="/shelf">
              To what is on the shelf
            </Link>
          </p>
        </section>
      </div>
    </Place>
  );
}

/** Who brings an item, as it stands beside it in the list. */
function whoBrings(item: ItemRow, orders: ExpectedRow[]): string | null {
  const brings = orders.filter(({ lines }) => lines.some(({ item_id }) => item_id === item.id));
  return brings[0]?.supplier ?? null;
}

/** What may stand at the door: what comes today or is overdue, and not what is ordered for another day. */
function awaitedByNow(orders: ExpectedRow[], zone: string): ExpectedRow[] {
  const today = dayOf(new Date(now.value), zone);
  return orders.filter((order) => dayOf(order.at, zone) <= today);
}

function Sorted({ orders, zone }: { orders: ExpectedRow[]; zone: string }) {
  const showsLater = useSignal(false);
  const today = dayOf(new Date(now.value), zone);
  const dayOfOrder = (order: ExpectedRow) => dayOf(order.at, zone);
  const late = orders.filter((order) => dayOfOrder(order) < today);
  const expected = orders.filter((order) => dayOfOrder(order) === today);
  const later = orders.filter((order) => dayOfOrder(order) > today);
  return (
    <>
      {late.length > 0 && <Some title="Overdue" orders={late} zone={zone} />}
      {expected.length > 0 ? (
        <Some title="Today" orders={expected} zone={zone} />
      ) : (
        <Nothing>Nothing is expected today.</Nothing>
      )}
      {later.length > 0 && (
        <div>
          <Button
            pressed={showsLater.value}
            onClick={() => {
              showsLater.value = !showsLater.value;
            }}
          >
            Later days: {many(later.length, "delivery", "deliveries")}
          </Button>
        </div>
      )}
      {showsLater.value &&
        [...new Set(later.map(dayOfOrder))].map((day) => (
          <Some
            key={day}
            title={dayName(day, true)}
            orders={later.filter((order) => dayOfOrder(order) === day)}
            zone={zone}
          />
        ))}
    </>
  );
}

function Some({ title, orders, zone }: { title: string; orders: ExpectedRow[]; zone: string }) {
  return (
    <section class="stack tight">
      <h2>{title}</h2>
      <ul class="lines">
        {orders.map((order) => (
          <li key={order.order}>
            <Link to={`/goods-in/${order.order}`}>
              <span class="row ends base">
                <strong>{order.supplier}</strong>
                <span class="figure">{whenOf(order, zone)}</span>
              </span>
              <span class="row ends base small">
                <span class="row">
                  <Mark what={isLate(order) ? "left" : "delivery"} />
                  {isLate(order) ? "not here yet" : "expected"}
                </span>
                <span class="soft">{linesWords(order)}</span>
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

function isLate(order: ExpectedRow): boolean {
  return Date.parse(order.at) < now.value;
}

/** The hour; of what is overdue its day, too. */
function whenOf(order: ExpectedRow, zone: string): string {
  const isOverdue = dayOf(order.at, zone) < dayOf(new Date(now.value), zone);
  return isOverdue ? moment(order.at, zone, now.value) : clock(order.at, zone);
}

/** `3 lines`, or how many of them have come already. */
export function linesWords(order: ExpectedRow): string {
  const come = order.lines.filter((line) => isNothing(line.outstanding)).length;
  const all = many(order.lines.length, "line");
  return come > 0 ? `${all}, ${come} here` : all;
}
