import "../../../look/manager.css";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { OrderRow, PlanRow, PriceRow, SupplierRow } from "../../../door/rows";
import { Place } from "../../../parts/frame";
import { below, Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { deliveriesOf } from "./draft";
import { DraftPage } from "./draft_page";
import { Overview } from "./overview";

/** The order desk: every order until its deadline, and each of them to look at, change, place and send. */
export function OrderDesk() {
  const plan = useReport<PlanRow>("plan");
  const orders = useReport<OrderRow>("orders").said.value?.rows;
  const suppliers = useReport<SupplierRow>("suppliers").said.value?.rows;
  const prices = useReport<PriceRow>("prices").said.value?.rows;
  const [supplier, delivery] = below("/order-desk");
  return (
    <Shown report={plan} what="Working out what is lacking">
      {(rows, zone) => {
        if (!orders || !suppliers || !prices) return null;
        const deliveries = deliveriesOf(rows, orders, suppliers, now.value);
        if (!supplier || !delivery) {
          const done = orders.filter(({ state }) => state !== "open");
          return <Overview {...{ deliveries, done, prices, suppliers, zone }} />;
        }
        const of = deliveries.find(
          (each) => each.supplierId === supplier && each.delivery === delivery,
        );
        const row = suppliers.find(({ id }) => id === supplier);
        if (of && row) return <DraftPage key={of.key} {...{ of, supplier: row, prices, zone }} />;
        return (
          <Place title="Order desk">
            <Nothing>
              That delivery is past, or nothing is ordered and nothing is lacking of it any more.
            </Nothing>
            <Link to="/order-desk" class="button">
              To all orders
            </Link>
          </Place>
        );
      }}
    </Shown>
  );
}
