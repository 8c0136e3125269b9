import "../../look/manager.css";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ExpectedRow, HouseRow, OrderRow, PlanRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Place } from "../../parts/frame";
import { Opens } from "../../parts/opens";
import { Link } from "../../parts/router";
import { Nothing, Said } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { Ways } from "../../parts/ways";
import { amount, many } from "../../words/amounts";
import { moment } from "../../words/time";
import { AskedFor } from "../shared/asked_for";
import { Derived } from "./derived";
import { dueOrders, tooLate } from "./due";
import { OrderCard } from "./order_card";
import { reason } from "./reason";
import { Stops } from "./stops";

/** What must be ordered, of whom, by what hour, and why; what cannot be had any more; what is on its way. */
export function Deadlines() {
  const plan = useReport<PlanRow>("plan");
  const house = useReport<HouseRow>("house").said.value?.rows[0];
  return (
    <Place
      title="Deadlines"
      under="What must be ordered, of whom, by what hour, and because of what"
    >
      {house?.has.items === 0 && mayGive("import_book") && (
        <Said kind="due">
          <strong>The house is empty.</strong>
          <Link to="/first-steps">Six steps to the first delivery and the first menu</Link>
        </Said>
      )}
      <Shown report={plan} what="Working out what is lacking">
        {(rows, zone) => (
          <>
            <TooLate rows={tooLate(rows)} zone={zone} />
            <Stops />
            <Orders rows={rows} zone={zone} house={house} />
          </>
        )}
      </Shown>
      {mayGive("place_order") && (
        <Link class="button" to="/order-desk">
          To the order desk
        </Link>
      )}
      <AskedFor />
      <OnOrder />
    </Place>
  );
}

function Orders(props: { rows: PlanRow[]; zone: string; house: HouseRow | undefined }) {
  const due = dueOrders(props.rows);
  const pressing = due.filter((order) => order.alert !== "none");
  const later = due.filter((order) => order.alert === "none");
  const placed = useReport<OrderRow>("orders").said.value?.rows;
  const supplierOf = (name: string) =>
    props.house?.suppliers.find((each) => each.supplier === name);
  const placedFor = (supplier: string, delivery: string) =>
    placed?.find(
      (order) =>
        order.state === "open" && order.supplier === supplier && order.delivery === delivery,
    );
  const cards = (orders: typeof due) => (
    <div class="orders">
      {orders.map((order) => (
        <OrderCard
          key={order.key}
          due={order}
          zone={props.zone}
          base={supplierOf(order.supplier)?.version}
          supplierId={supplierOf(order.supplier)?.id}
          placed={placedFor(order.supplier, order.delivery)}
          // as long as it is not known what is placed, a second order might be
          places={placed !== undefined && mayGive("place_order")}
        />
      ))}
    </div>
  );
  if (due.length === 0) {
    return <Nothing>Everything is in the house or on its way. Nothing is to be ordered.</Nothing>;
  }
  return (
    <>
      <section class="stack" aria-label="Order now">
        <h2>Order now</h2>
        {pressing.length ? cards(pressing) : <Nothing>Nothing presses.</Nothing>}
      </section>
      {later.length > 0 && (
        <section class="stack" aria-label="Not yet due">
          <h2>Not yet due</h2>
          {cards(later)}
        </section>
      )}
    </>
  );
}

function TooLate({ rows, zone }: { rows: PlanRow[]; zone: string }) {
  if (rows.length === 0) return null;
  return (
    <section class="stack" aria-label="Cannot be had any more in time">
      <h2>Cannot be had any more in time</h2>
      {rows.map((row) => (
        <div class="said wrong" key={row.item + row.wanted_by}>
          <strong>
            <Opens figure={amount(row.net)} title={`${row.item}: what is lacking`}>
              <Derived row={row} zone={zone} />
            </Opens>{" "}
            {row.item}, wanted by {moment(row.wanted_by, zone, now.value)}
          </strong>
          <span>For {row.because.map(reason).join("; ")}</span>
          <Ways ways={row.ways_out} zone={zone} />
        </div>
      ))}
    </section>
  );
}

function OnOrder() {
  const expected = useReport<ExpectedRow>("expected");
  return (
    <section class="stack" aria-label="On its way">
      <h2>On its way</h2>
      <Shown report={expected} what="Looking for open orders">
        {(orders, zone) =>
          orders.length === 0 ? (
            <Nothing>No order is open.</Nothing>
          ) : (
            <ul class="lines">
              {orders.map((order) => (
                <li key={order.order} class="row ends base">
                  <span>
                    {order.supplier} <span class="soft">{many(order.lines.length, "line")}</span>
                  </span>
                  <span>
                    comes <strong>{moment(order.at, zone, now.value)}</strong>
                  </span>
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
    </section>
  );
}
