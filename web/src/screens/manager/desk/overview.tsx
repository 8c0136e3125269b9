import { now } from "../../../door/clock";
import type { OrderRow, PriceRow, SupplierRow } from "../../../door/rows";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { TimeLeft } from "../../../parts/time_left";
import { many, money } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { AskedFor } from "../../shared/asked_for";
import { DaysAhead } from "../../shared/days_ahead";
import { Alert } from "../alert";
import { Stops } from "../stops";
import { Budget } from "./budget";
import { type Delivery, draftLines, sumsOf } from "./draft";
import { linkOf } from "./link";
import { sentWords } from "./order_words";

interface OverviewProps {
  deliveries: Delivery[];
  done: OrderRow[];
  prices: PriceRow[];
  suppliers: SupplierRow[];
  zone: string;
}

/** Every order of the days ahead: what is to be ordered by when, what is on its way, what else may be ordered. */
export function Overview({ deliveries, done, prices, suppliers, zone }: OverviewProps) {
  const due = deliveries.filter((each) => each.due.length > 0);
  const pressing = due.filter(({ alert }) => alert !== "none");
  const later = due.filter(({ alert }) => alert === "none");
  const ordered = deliveries.filter((each) => each.due.length === 0 && each.orders.length > 0);
  const others = deliveries.filter((each) => each.due.length === 0 && each.orders.length === 0);
  const card = (of: Delivery) => (
    <DeliveryCard key={of.key} of={of} prices={prices} suppliers={suppliers} zone={zone} />
  );
  return (
    <Place title="Order desk" under="Each order until its deadline: look, change, place, send">
      <Budget />
      <section class="stack" aria-label="Order now">
        <h2>Order now</h2>
        {pressing.length > 0 ? (
          <div class="orders">{pressing.map(card)}</div>
        ) : (
          <Nothing>Nothing presses.</Nothing>
        )}
      </section>
      <Stops />
      <DaysAhead />
      <Short title="Not yet due" of={later} zone={zone} />
      <Short title="Ordered" of={ordered} zone={zone} />
      <AskedFor />
      <Short title="Nothing is lacking of" of={others} zone={zone} />
      <nav class="row" aria-label="Reports of the order desk">
        <Link to="/reorder" class="button">
          Reorder report
        </Link>
        <Link to="/prices" class="button">
          Prices
        </Link>
        <Link to="/invoices" class="button">
          Invoices
        </Link>
      </nav>
      {done.length > 0 && <Lately orders={done} zone={zone} />}
    </Place>
  );
}

/** Deliveries that do not press, a line each. */
function Short({ title, of, zone }: { title: string; of: Delivery[]; zone: string }) {
  if (of.length === 0) return null;
  return (
    <section class="stack" aria-label={title}>
      <h2>{title}</h2>
      <ul class="lines">
        {of.map((each) => (
          <li key={each.key}>
            <Link to={linkOf(each)}>
              <span class="row ends base">
                <strong>{each.supplier}</strong>
                <span>comes {moment(each.delivery, zone, now.value)}</span>
              </span>
              <span class="soft">{standing(each, zone)}</span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** How far an order is, in a few words. */
function standing({ due, orders, orderBy }: Delivery, zone: string): string {
  const [order] = orders;
  const isSent = order?.sent.some(({ stands }) => stands);
  const isPast = orderBy === null || Date.parse(orderBy) < now.value;
  return [
    order && many(order.lines.length + order.free.length, "line"),
    order?.standing && "a standing order",
    order &&
      !order.standing &&
      (isSent ? "sent" : order.sent.length > 0 ? "changed since it was sent" : "not sent"),
    order && order.answers.length > 0 && "answered",
    due.length > 0 && `${many(due.length, "line")} to be ordered`,
    orderBy && !isPast && `${order ? "change" : "order"} it by ${moment(orderBy, zone, now.value)}`,
    order && isPast && "the cut-off is past",
  ]
    .filter(Boolean)
    .join(" · ");
}

function Lately({ orders, zone }: { orders: OrderRow[]; zone: string }) {
  return (
    <section class="stack" aria-label="In the last two weeks">
      <h2>In the last two weeks</h2>
      <ul class="lines">
        {orders.map((order) => (
          <li key={order.order} class="row ends base">
            <span>
              <strong>{order.supplier}</strong> {moment(order.delivery, zone, now.value)}
            </span>
            <span>
              {order.state}
              {order.reason && `: ${order.reason}`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface CardProps {
  of: Delivery;
  prices: PriceRow[];
  suppliers: SupplierRow[];
  zone: string;
}

function DeliveryCard({ of, prices, suppliers, zone }: CardProps) {
  const supplier = suppliers.find(({ id }) => id === of.supplierId);
  const [order] = of.orders;
  const lines = draftLines(of, prices, { packs: {}, free: [] });
  const sums = supplier && sumsOf(lines, order?.free ?? [], supplier);
  return (
    <article class="card stack" aria-label={of.supplier}>
      <header class="stack tight">
        <div class="row ends base">
          <h3>{of.supplier}</h3>
          {of.due.length > 0 && <Alert alert={of.alert} />}
        </div>
        {of.orderBy && (
          <TimeLeft
            at={of.orderBy}
            now={now.value}
            zone={zone}
            what={order ? "change it by" : "order by"}
          />
        )}
        <div class="row ends base">
          <span>comes {moment(of.delivery, zone, now.value)}</span>
          {sums && <strong class="figure">{money(sums.total)}</strong>}
        </div>
        {sums && sums.below.minor > 0 && (
          <span>{money(sums.below)} below the supplier's minimum</span>
        )}
        {of.due.length > 0 && <span>{many(of.due.length, "line")} to be ordered</span>}
        {order && (
          <span>
            {many(order.lines.length + order.free.length, "line")} ordered.{" "}
            {sentWords(order, zone, now.value)}
          </span>
        )}
      </header>
      <Link class="button" to={linkOf(of)}>
        {of.due.length > 0 ? "Look and order" : "Look at the order"}
        <span class="unseen">: {of.supplier}</span>
      </Link>
    </article>
  );
}
