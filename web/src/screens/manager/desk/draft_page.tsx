import { type Signal, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { BudgetRow, PriceRow, SupplierRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { BegunBefore } from "../../../parts/begun";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { useDraft } from "../../../parts/draft";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { TimeLeft } from "../../../parts/time_left";
import { many, money } from "../../../words/amounts";
import { dayOf, moment } from "../../../words/time";
import { Alert } from "../alert";
import { AddLine } from "./add_line";
import { AskedHere } from "./asked_here";
import { BudgetBar } from "./budget_bar";
import {
  asLines,
  type Delivery,
  draftLines,
  type Free,
  freeOf,
  isNews,
  mondayOf,
  type Sums,
  sumsOf,
} from "./draft";
import { DraftLines } from "./draft_lines";
import { HOW } from "./order_words";
import { Placed } from "./placed";

interface PageProps {
  of: Delivery;
  supplier: SupplierRow;
  prices: PriceRow[];
  zone: string;
}

/** What somebody changed of a draft, kept on this device until the order is placed. */
export interface Changing {
  packs: Signal<Record<string, number>>;
  free: Signal<Free[] | null>;
}

/** One order: its lines with their reasons, what it comes to, changing, placing and sending it. */
export function DraftPage({ of, supplier, prices, zone }: PageProps) {
  const changing: Changing = { packs: useSignal({}), free: useSignal(null) };
  const fields = useMemo(() => ({ packs: changing.packs, free: changing.free }), []);
  const draft = useDraft(`/order-desk/${of.key}`, fields, useSignal([]), false);
  const doing = useDoing(`/order-desk/${of.key}`);
  const free = freeOf(of, changing.free.value);
  const lines = draftLines(of, prices, { packs: changing.packs.value, free });
  const sums = sumsOf(lines, free, supplier);
  const [order] = of.orders;
  const place = async (agreed: boolean) => {
    const told = agreed ? { agreed } : {};
    const body = { lines: asLines(lines), free, ...told };
    const answer = order
      ? await doing.act("amend_order", { order: order.order, ...body }, of.supplier, order.version)
      : await doing.act(
          "place_order",
          { supplier: of.supplierId, delivery: of.delivery, ...body },
          of.supplier,
          supplier.version,
        );
    if (!isGiven(answer)) return;
    changing.packs.value = {};
    changing.free.value = null;
    draft.forget();
  };
  const count = asLines(lines).length + free.length;
  const news = isNews(of, lines, free);
  const isLate = doing.problem.value?.code === "cut_off_passed";
  return (
    <>
      <Place title={of.supplier} under={`Comes ${moment(of.delivery, zone, now.value)}`}>
        <Head of={of} supplier={supplier} zone={zone} />
        <Done doing={doing} />
        {isLate && (
          <Button onClick={() => void place(true)} disabled={doing.busy.value}>
            They agreed on the telephone: order it all the same
          </Button>
        )}
        <BegunBefore draft={draft} />
        <section class="stack narrow" aria-label="What is on it">
          <h2>What is on it</h2>
          {lines.length + free.length === 0 && <Nothing>Nothing yet.</Nothing>}
          <DraftLines {...{ lines, free, changing, zone }} />
          <AddLine {...{ of, prices, lines, free, changing }} />
        </section>
        <AskedHere {...{ of, prices, lines, free, changing }} />
        <ComesTo sums={sums} supplier={supplier} />
        <OfTheWeek of={of} sums={sums} zone={zone} />
        {of.orders.map((each) => (
          <Placed
            key={each.order}
            order={each}
            isChanged={each === order && news}
            {...{ prices, zone, doing }}
          />
        ))}
        <Link to="/order-desk" class="touch">
          All orders
        </Link>
      </Place>
      {mayGive(order ? "amend_order" : "place_order") && news && (
        <ActBar>
          <Button
            kind="main"
            onClick={() => void place(false)}
            disabled={doing.busy.value || count === 0}
          >
            {order ? "Change the order" : "Place the order"}: {many(count, "line")},{" "}
            {money(sums.total)}
          </Button>
        </ActBar>
      )}
    </>
  );
}

function Head({ of, supplier, zone }: { of: Delivery; supplier: SupplierRow; zone: string }) {
  const way = supplier.order_given && HOW[supplier.order_given];
  const how = [way, supplier.order_words].filter(Boolean).join(": ");
  return (
    <div class="stack tight narrow">
      {of.due.length > 0 && (
        <div>
          <Alert alert={of.alert} />
        </div>
      )}
      {of.orderBy ? (
        <TimeLeft
          at={of.orderBy}
          now={now.value}
          zone={zone}
          what={of.orders.length > 0 ? "change it by" : "order by"}
        />
      ) : (
        <p>Its cut-off is past, or not known: they have to agree to every change.</p>
      )}
      {how && <p>Orders are given {how}.</p>}
    </div>
  );
}

function ComesTo({ sums, supplier }: { sums: Sums; supplier: SupplierRow }) {
  return (
    <section class="stack narrow" aria-label="What it comes to">
      <h2>What it comes to</h2>
      <dl class="facts">
        <dt>Goods</dt>
        <dd>{money(sums.goods)}</dd>
        <dt>Delivery</dt>
        <dd>{money(sums.charge)}</dd>
        <dt>Together</dt>
        <dd>
          <strong>{money(sums.total)}</strong>
        </dd>
        {supplier.minimum.minor > 0 && (
          <>
            <dt>Minimum</dt>
            <dd>
              {money(supplier.minimum)}
              {sums.below.minor > 0 ? (
                <strong>: {money(sums.below)} are missing</strong>
              ) : (
                ": reached"
              )}
            </dd>
          </>
        )}
      </dl>
      {sums.unpriced > 0 && (
        <p class="soft">{many(sums.unpriced, "line")} without a price: not in these sums.</p>
      )}
    </section>
  );
}

/** The week of the delivery against the budget, with what this draft would add. */
function OfTheWeek({ of, sums, zone }: { of: Delivery; sums: Sums; zone: string }) {
  const rows = useReport<BudgetRow>("budget").said.value?.rows ?? [];
  const week = mondayOf(dayOf(of.delivery, zone));
  const row = rows.find((each) => each.week === week);
  if (!row) return null;
  const was = of.orders.reduce((sum, { goods }) => sum + goods.minor, 0);
  const charged = of.orders[0]?.charge.minor ?? 0;
  const others = of.orders.slice(1).reduce((sum, { goods }) => sum + goods.minor, 0);
  return (
    <div class="narrow">
      <BudgetBar row={row} more={sums.total.minor + others - was - charged} />
    </div>
  );
}
