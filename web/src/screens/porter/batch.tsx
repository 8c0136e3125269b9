import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { isNamed } from "../../door/codes/is_on";
import { written } from "../../door/house_days";
import type { StandingRow } from "../../door/outbox/batch_parts";
import { useReport } from "../../door/reports";
import type { ItemRow, StockRow, TraceRow } from "../../door/rows";
import { mayRead, me } from "../../door/session";
import { standingAt } from "../../door/shelf_life";
import { useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { packDate } from "../../words/pack_date";
import { moment } from "../../words/time";
import { OnHand, TimeLeft, toBatch } from "./batches";
import { Allergens } from "./motions/allergens";
import { Motions } from "./motions/motions";
import { PromisedTo } from "./promised_to";
import { Traced } from "./traced";

/** One batch by its label or its id: what is known of it, what is done with it, where it came from and went. */
export function Batch({ label }: { label: string }) {
  const stock = useReport<StockRow>("stock");
  const trace = useReport<TraceRow>("trace", { name: label });
  const items = useReport<ItemRow>("items").said.value?.rows;
  const doing = useDoing(`/shelf/${label}`);
  const made = useSignal("");
  const rows: StandingRow[] = stock.said.value?.rows ?? [];
  const found = rows.find((each) => isNamed(each, label));
  const row = found && standingAt(found, written(now.value));
  const known = trace.said.value?.rows.find((each) => each.label === label);
  const item = items?.find(({ id }) => id === row?.item_id);
  const child = rows.find(({ batch }) => batch === made.value);
  return (
    <Place title={row?.item ?? known?.item ?? "A batch"} under={labelWords(row, label)}>
      <Done doing={doing} />
      {child && (
        <p>
          <Link class="touch" to={toBatch(child)}>
            To what is {child.state.replace("_", " ")} now, {amount(child.on_hand)}
          </Link>
        </p>
      )}
      <div class="columns">
        <div class="stack">
          <Shown report={stock} what="Looking at the shelves">
            {(_, zone) =>
              row ? (
                <Facts row={row} zone={zone} />
              ) : (
                <Nothing>Nothing of it stands in the house any more.</Nothing>
              )
            }
          </Shown>
          {item && <Allergens item={item} />}
        </div>
        {row && item && <Motions row={row} item={item} doing={doing} made={made} />}
      </div>
      {row && mayRead("coverage") && <PromisedTo batch={row.batch} />}
      {!row?.isOwn && (
        <Shown report={trace} what="Looking at where it came from">
          {(told) => <Traced rows={told} label={label} />}
        </Shown>
      )}
      <p class="row">
        {row && (
          <Link class="touch" to={`/labels/${encodeURIComponent(row.label)}`}>
            Label
          </Link>
        )}
        <Link class="touch" to="/shelf">
          To every storage area
        </Link>
      </p>
    </Place>
  );
}

function labelWords(row: StandingRow | undefined, label: string): string {
  if (!row) return `Label ${label}`;
  const names = [row.label, ...(row.numbered ?? [])].filter(Boolean);
  return names.length > 0 ? `Label ${names.join(", ")}` : "No label on it yet";
}

const KIND = { use_by: "use by", best_before: "best before", none: "none on the pack" };

function Facts({ row, zone }: { row: StandingRow; zone: string }) {
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
      {row.isOwn && !row.isUntold && (
        <p class="small">
          The dates are reckoned on this phone, by the house's rules; the house says them once it
          has this record.
        </p>
      )}
      <p class="soft small">The label in your hand, local food law and the chef come first.</p>
    </section>
  );
}
