import "../../../look/manager.css";
import "../../../look/menus.css";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { InvoiceRow, NotBilledRow, PriceRow, Reports, SupplierRow } from "../../../door/rows";
import { mayGive, mayRead, me } from "../../../door/session";
import { Place } from "../../../parts/frame";
import { below, Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many, money } from "../../../words/amounts";
import { dayName, moment } from "../../../words/time";
import { One } from "./one";
import { TypeIn } from "./type_in";

/** What suppliers bill, whether it agrees with order and delivery, and typing an invoice in. */
export function Invoices() {
  const report = useReport<InvoiceRow>("invoices");
  const suppliers = useReport<SupplierRow>("suppliers").said.value?.rows;
  const prices = useReport<PriceRow>("prices").said.value?.rows;
  // what stands beside the rows of this report
  const told = report.said.value as Reports["invoices"] | null;
  const [what, which] = below("/invoices");
  const supplier = suppliers?.find(({ id }) => id === which);
  const notBilled = told?.not_billed ?? [];
  return (
    <Shown report={report} what="Looking at the invoices">
      {(rows, zone) => {
        if (what === "new" && supplier && prices) {
          const deliveries = notBilled.filter(({ supplier_id: of }) => of === supplier.id);
          const of = { id: supplier.id, name: supplier.supplier };
          const { currency } = supplier.charge;
          const owed = told?.owed ?? [];
          return <TypeIn {...{ supplier: of, currency, deliveries, owed, prices, zone }} />;
        }
        if (what === "of")
          return <Single row={rows.find(({ invoice }) => invoice === which)} zone={zone} />;
        return <All {...{ rows, notBilled, suppliers: suppliers ?? [], zone }} />;
      }}
    </Shown>
  );
}

function Single({ row, zone }: { row: InvoiceRow | undefined; zone: string }) {
  return (
    <Place title="Invoice">
      <div class="stack narrow">
        {row ? (
          <One row={row} zone={zone} />
        ) : (
          <Nothing>It is not among the invoices any more.</Nothing>
        )}
        <Link to="/invoices" class="button">
          To all invoices
        </Link>
      </div>
    </Place>
  );
}

interface AllProps {
  rows: InvoiceRow[];
  notBilled: NotBilledRow[];
  suppliers: SupplierRow[];
  zone: string;
}

function All({ rows, notBilled, suppliers, zone }: AllProps) {
  const differing = rows.filter(({ state }) => state === "differs");
  const others = rows.filter(({ state }) => state !== "differs");
  return (
    <Place title="Invoices" under="Held against order, delivery and credit">
      <div class="stack narrow">
        <section class="stack" aria-label="To be settled">
          <h2>To be settled</h2>
          {differing.length === 0 && <Nothing>No invoice differs from what was agreed.</Nothing>}
          {differing.map((row) => (
            <One key={row.invoice} row={row} zone={zone} />
          ))}
        </section>
        <NotBilled rows={notBilled} suppliers={suppliers} zone={zone} />
        <section class="stack" aria-label="Settled, or as agreed">
          <h2>Settled, or as agreed</h2>
          {others.length === 0 && <Nothing>None in the last quarter.</Nothing>}
          <ul class="lines">
            {others.map((row) => (
              <li key={row.invoice}>
                <Link to={`/invoices/of/${row.invoice}`}>
                  <span class="row ends base">
                    <span>
                      <strong>{row.supplier}</strong>, {row.number}
                    </span>
                    <span class="figure">{money(row.total)}</span>
                  </span>
                  <span class="soft">
                    {dayName(row.dated)}, {row.state}
                  </span>
                </Link>
              </li>
            ))}
          </ul>
        </section>
      </div>
      <nav class="row on-screen" aria-label="The invoices elsewhere">
        <a class="button" href="/api/invoices.pdf" target="_blank" rel="noreferrer">
          On paper (PDF)
        </a>
        <a class="button" href="/api/reports/invoices.xlsx" download>
          As a workbook (XLSX)
        </a>
        <a class="button" href="/api/reports/invoices.csv" download>
          As a sheet (CSV)
        </a>
        {mayRead("credits") && (
          <Link class="button" to="/credits">
            Credits expected
          </Link>
        )}
      </nav>
    </Place>
  );
}

interface NotBilledProps {
  rows: NotBilledRow[];
  suppliers: SupplierRow[];
  zone: string;
}

/** What came and is not billed, a supplier a line; and the way to type in any supplier's invoice. */
function NotBilled({ rows, suppliers, zone }: NotBilledProps) {
  const mayRecord = me.value && mayGive("record_invoice");
  const waiting = suppliers.filter(({ id }) => rows.some(({ supplier_id: of }) => of === id));
  const others = suppliers.filter((each) => !waiting.includes(each));
  return (
    <section class="stack" aria-label="Received and not billed yet">
      <h2>Received and not billed yet</h2>
      {waiting.length === 0 && <Nothing>Everything that came is billed.</Nothing>}
      <ul class="lines">
        {waiting.map((each) => {
          const own = rows.filter(({ supplier_id: of }) => of === each.id);
          return (
            <li key={each.id} class="stack tight">
              <span class="row ends base">
                <strong>{each.supplier}</strong>
                <span class="figure">{money(worthOf(own, each.charge.currency))}</span>
              </span>
              <span class="soft">
                {many(own.length, "delivery", "deliveries")}:{" "}
                {own.map(({ delivery }) => moment(delivery, zone, now.value)).join("; ")}
              </span>
              {mayRecord && (
                <div>
                  <Link class="button" to={`/invoices/new/${each.id}`}>
                    Type in their invoice<span class="unseen">: {each.supplier}</span>
                  </Link>
                </div>
              )}
            </li>
          );
        })}
      </ul>
      {mayRecord && others.length > 0 && (
        <details>
          <summary>An invoice of another supplier</summary>
          <ul class="lines">
            {others.map((each) => (
              <li key={each.id}>
                <Link to={`/invoices/new/${each.id}`}>{each.supplier}</Link>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function worthOf(rows: NotBilledRow[], currency: string) {
  const sums = rows.flatMap(({ lines, charge }) => [charge, ...lines.map(({ value }) => value)]);
  return { minor: sums.reduce((sum, { minor }) => sum + minor, 0), currency };
}
