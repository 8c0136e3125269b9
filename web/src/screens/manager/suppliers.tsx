import "../../look/manager.css";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { SupplierRecordRow, SupplierRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Place } from "../../parts/frame";
import { Opens } from "../../parts/opens";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { money } from "../../words/amounts";
import { dayName, moment } from "../../words/time";
import { DeliveryDays } from "./delivery_days";
import { HOW } from "./desk/order_words";
import { Standing, StandingOrder } from "./standing_order";
import { CallOff, Closed, Holidays } from "./supplier_forms";
import { Kept } from "./supplier_kept";
import { Weeks } from "./supplier_weeks";
import { Terms } from "./terms_form";

/** Who sells to the house: what comes of them in the next weeks, by when, what moves it, and changing that. */
export function Suppliers() {
  const report = useReport<SupplierRow>("suppliers");
  const kept = useReport<SupplierRecordRow>("supplier-record").said.value?.rows;
  return (
    <Place title="Suppliers" under="The next four weeks">
      <Shown report={report} what="Looking at the calendars">
        {(rows, zone) => (
          <div class="stack narrow">
            {rows.length === 0 && <Nothing>This house has no supplier yet.</Nothing>}
            {rows.map((row) => (
              <One
                key={row.id}
                row={row}
                kept={kept?.find(({ supplier_id: of }) => of === row.id)}
                zone={zone}
              />
            ))}
          </div>
        )}
      </Shown>
    </Place>
  );
}

interface OneProps {
  row: SupplierRow;
  kept: SupplierRecordRow | undefined;
  zone: string;
}

function One({ row, kept, zone }: OneProps) {
  const [next] = row.coming.filter(({ order_by: by }) => by && Date.parse(by) >= now.value);
  return (
    <article class="card stack" aria-label={row.supplier}>
      <header class="stack tight">
        <h2>{row.supplier}</h2>
        {next?.order_by && next.delivery ? (
          <p>
            Order by <strong>{moment(next.order_by, zone, now.value)}</strong> for{" "}
            {moment(next.delivery, zone, now.value)}.
          </p>
        ) : (
          <p>Nothing can be ordered in the next four weeks.</p>
        )}
        {termsOf(row).map((line) => (
          <p class="soft" key={line}>
            {line}
          </p>
        ))}
      </header>
      <Standing of={row.id} />
      <Weeks row={row} zone={row.zone ?? zone} />
      <details>
        <summary>Every delivery in words</summary>
        <ul>
          {row.coming.map((each) => (
            <li key={`${each.on} ${each.delivery}`}>{inWords(each, zone)}</li>
          ))}
        </ul>
      </details>
      {kept && <Kept row={kept} zone={zone} />}
      <div class="row">
        <Opens figure="Call off a delivery" title={row.supplier}>
          <CallOff row={row} zone={zone} />
        </Opens>
        <Opens figure="Closed for a time" title={row.supplier}>
          <Closed row={row} />
        </Opens>
        <Opens figure="Public holidays" title={row.supplier}>
          <Holidays row={row} />
        </Opens>
        <Opens figure="Delivery days" title={row.supplier}>
          <DeliveryDays row={row} />
        </Opens>
        <Opens figure="Standing order" title={row.supplier}>
          <StandingOrder row={row} zone={zone} />
        </Opens>
        <Opens figure="Terms" title={row.supplier}>
          <Terms row={row} />
        </Opens>
        {mayGive("record_invoice") && (
          <Link class="touch" to={`/invoices/new/${row.id}`}>
            Type in an invoice<span class="unseen">: {row.supplier}</span>
          </Link>
        )}
      </div>
    </article>
  );
}

type Coming = SupplierRow["coming"][number];

function inWords(each: Coming, zone: string): string {
  const day = dayName(each.on);
  if (!each.delivery || !each.order_by) return `${day}: nothing comes${because(each.why)}`;
  const at = moment(each.delivery, zone, now.value);
  const by = moment(each.order_by, zone, now.value);
  return [
    `${at}, order by ${by}`,
    each.comes_on === each.on ? "" : `moved from ${day}${because(each.why)}`,
    each.cutoff_moved ? `no orders are taken on the usual day${because(each.cutoff_why)}` : "",
  ]
    .filter(Boolean)
    .join("; ");
}

function because(why: string | null): string {
  return why ? ` (${why})` : "";
}

const SUBSTITUTION: Record<string, string> = {
  ask_first: "Asks before sending another thing.",
  never: "Sends nothing instead.",
  allowed: "May send another thing; the chef checks its allergens.",
};

function termsOf(row: SupplierRow): string[] {
  const how = [row.order_given && HOW[row.order_given], row.order_words].filter(Boolean);
  const sums = [
    row.minimum.minor > 0 && `at least ${money(row.minimum)}`,
    row.charge.minor > 0 && `${money(row.charge)} a delivery`,
  ].filter(Boolean);
  return [
    how.length ? `Orders are given ${how.join(": ")}.` : "",
    sums.length ? `Costs: ${sums.join(", ")}.` : "",
    row.may_fail ? failing(row.fails_percent) : "",
    (row.substitution && SUBSTITUTION[row.substitution]) || "",
    row.fallback_shop ? `If all fails: ${row.fallback_shop}.` : "",
    row.zone ? `Its times are those of ${row.zone}.` : "",
  ].filter(Boolean);
}

function failing(percent: number | null): string {
  const often = percent == null ? "" : `, about ${percent} times in 100`;
  return `May fail to come${often}: a delivery earlier is planned for.`;
}
