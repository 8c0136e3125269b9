import { now } from "../../door/clock";
import { isOn } from "../../door/codes/is_on";
import { useReport } from "../../door/reports";
import type { StockRow, TraceRow } from "../../door/rows";
import { mayRead, me } from "../../door/session";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { packDate } from "../../words/pack_date";
import { moment } from "../../words/time";
import { OnHand, TimeLeft } from "./batches";
import { PromisedTo } from "./promised_to";
import { Traced } from "./traced";

/** One batch by its label: all that is known of it, where it came from and where it went. */
export function Batch({ label }: { label: string }) {
  const stock = useReport<StockRow>("stock");
  const trace = useReport<TraceRow>("trace", { name: label });
  const row = stock.said.value?.rows.find((each) => isOn(each, label));
  const known = trace.said.value?.rows.find((each) => each.label === label);
  return (
    <Place title={row?.item ?? known?.item ?? "A batch"} under={`Label ${label}`}>
      <div class="columns">
        <Shown report={stock} what="Looking at the shelves">
          {(_, zone) =>
            row ? (
              <Facts row={row} zone={zone} />
            ) : (
              <Nothing>Nothing of it stands in the house any more.</Nothing>
            )
          }
        </Shown>
        <div class="stack">
          {row && mayRead("coverage") && <PromisedTo batch={row.batch} />}
          <Shown report={trace} what="Looking at where it came from">
            {(rows) => <Traced rows={rows} label={label} />}
          </Shown>
        </div>
      </div>
      {row && (
        <p>
          <Link class="touch" to={`/waste/${encodeURIComponent(row.label)}`}>
            To waste
          </Link>{" "}
          <Link class="touch" to={`/labels/${encodeURIComponent(row.label)}`}>
            Label
          </Link>
        </p>
      )}
      <p>
        <Link class="touch" to="/shelf">
          To every storage area
        </Link>
      </p>
    </Place>
  );
}

const KIND = { use_by: "use by", best_before: "best before", none: "none on the pack" };

function Facts({ row, zone }: { row: StockRow; zone: string }) {
  const mark = me.value?.house.decimal_mark ?? ".";
  const said = (at: string) => moment(at, zone, now.value);
  const { kind, date } = row.date_mark;
  return (
    <section class="stack" aria-label="What is known of it">
      <TimeLeft row={row} zone={zone} />
      {!row.usable && <strong class="state wrong">It is not to be used.</strong>}
      <dl class="facts">
        <dt>On hand</dt>
        <dd>
          <OnHand row={row} />
        </dd>
        <dt>Where</dt>
        <dd>
          {Object.entries(row.areas).map(([area, quantity]) => (
            <div key={area}>
              {area}, {amount(quantity, mark)}
            </div>
          ))}
        </dd>
        <dt>State</dt>
        <dd>{row.state}</dd>
        <dt>Date mark</dt>
        <dd>
          {KIND[kind]} {date && packDate(date)}
        </dd>
        {row.usable_until && (
          <>
            <dt>Usable until</dt>
            <dd>{said(row.usable_until)}</dd>
          </>
        )}
        {row.good_until && (
          <>
            <dt>Good until</dt>
            <dd>{said(row.good_until)}</dd>
          </>
        )}
        <dt>Lot</dt>
        <dd>{row.lot ?? "not known"}</dd>
      </dl>
      <p class="soft small">The label in your hand, local food law and the chef come first.</p>
    </section>
  );
}
