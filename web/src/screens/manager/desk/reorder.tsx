import "../../../look/manager.css";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { ReorderRow } from "../../../door/rows";
import { Place } from "../../../parts/frame";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { money } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { reason } from "../reason";
import { byDelivery, type Together } from "./together";

/** What must be ordered, by deadline and supplier, and what it comes to; as a picture, in lines, on paper, as a sheet. */
export function Reorder() {
  const report = useReport<ReorderRow>("reorder");
  return (
    <Place title="Reorder report" under="What must be ordered, by deadline and supplier">
      <nav class="row on-screen" aria-label="The report elsewhere">
        <a class="button" href="/api/reorder.pdf" target="_blank" rel="noreferrer">
          On paper (PDF)
        </a>
        <a class="button" href="/api/reports/reorder.xlsx" download>
          As a workbook (XLSX)
        </a>
        <a class="button" href="/api/reports/reorder.csv" download>
          As a sheet (CSV)
        </a>
      </nav>
      <Shown report={report} what="Working out what is lacking">
        {(rows, zone) => {
          const orders = byDelivery(rows);
          return (
            <div class="stack narrow">
              <Missed rows={rows.filter(({ alert }) => alert === "missed")} zone={zone} />
              {orders.length === 0 && <Nothing>Everything is in the house or on its way.</Nothing>}
              <Picture orders={orders} zone={zone} />
              {orders.map((each) => (
                <One key={each.key} of={each} zone={zone} />
              ))}
            </div>
          );
        }}
      </Shown>
    </Place>
  );
}

function Missed({ rows, zone }: { rows: ReorderRow[]; zone: string }) {
  if (rows.length === 0) return null;
  return (
    <section class="said wrong" aria-label="Cannot be had any more in time">
      <strong>Cannot be had any more in time</strong>
      <ul>
        {rows.map((row) => (
          <li key={`${row.item} ${row.wanted_by}`}>
            {row.item}, wanted by {moment(row.wanted_by, zone, now.value)}
          </li>
        ))}
      </ul>
    </section>
  );
}

const WIDE = 300;
const HIGH = 14;

/** Every order as a length: its goods, then its delivery, then what its minimum lacks; the words beside it. */
function Picture({ orders, zone }: { orders: Together[]; zone: string }) {
  if (orders.length === 0) return null;
  const most = Math.max(...orders.map(({ goods, charge, below }) => goods + charge + below), 1);
  const part = (minor: number) => (minor * WIDE) / most;
  return (
    <section class="stack" aria-label="What each order comes to">
      <h2>What each order comes to</h2>
      <p class="small">
        Filled: goods. Striped: delivery. Outlined: what is missing to the minimum.
      </p>
      <ul class="lines">
        {orders.map((each) => (
          <li key={each.key} class="stack tight">
            <span class="row ends base">
              <span>
                {moment(each.orderBy, zone, now.value)} <strong>{each.supplier}</strong>
              </span>
              <span class="figure">
                {money({ minor: each.goods + each.charge, currency: each.currency })}
              </span>
            </span>
            <svg
              class="budget"
              viewBox={`0 0 ${WIDE} ${HIGH}`}
              preserveAspectRatio="none"
              aria-hidden="true"
            >
              <defs>
                <pattern id="charge" width="6" height="6" patternUnits="userSpaceOnUse">
                  <path class="stripe" d="M0 6L6 0" />
                </pattern>
              </defs>
              <rect class="ordered" x="0" y="2" width={part(each.goods)} height="10" />
              <rect
                fill="url(#charge)"
                x={part(each.goods)}
                y="2"
                width={part(each.charge)}
                height="10"
              />
              <rect
                class="more"
                x={part(each.goods + each.charge)}
                y="2"
                width={part(each.below)}
                height="10"
              />
            </svg>
          </li>
        ))}
      </ul>
    </section>
  );
}

function One({ of, zone }: { of: Together; zone: string }) {
  const said = (minor: number) => money({ minor, currency: of.currency });
  return (
    <section class="stack tight" aria-label={`${of.supplier}, ${of.delivery}`}>
      <h2>{of.supplier}</h2>
      <p>
        Order by <strong>{moment(of.orderBy, zone, now.value)}</strong>, comes{" "}
        {moment(of.delivery, zone, now.value)}
        {of.order && <>; added to the order that is placed</>}
      </p>
      <ul class="lines">
        {of.lines.map((row) => (
          <li key={`${row.item} ${row.pack}`} class="stack tight">
            <span class="row ends base">
              <span>
                {row.packs} × {row.pack} <strong>{row.item}</strong>
              </span>
              <span class="figure">{money(row.cost)}</span>
            </span>
            <span class="soft small">for {row.because.map(reason).join("; ")}</span>
          </li>
        ))}
      </ul>
      <p>
        {of.charge > 0 && <>{said(of.charge)} delivery, </>}
        <strong>{said(of.goods + of.charge)}</strong> together
        {of.below > 0 && <>; {said(of.below)} below their minimum</>}
      </p>
    </section>
  );
}
