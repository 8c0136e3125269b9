import "../../look/menus.css";
import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { FailedPlaceRow } from "../../door/rows";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Place } from "../../parts/frame";
import { Panel } from "../../parts/panel";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount } from "../../words/amounts";
import { byPlace, heldInWords, type PlaceHeld, verdictOf } from "../../words/failed";
import { moment } from "../../words/time";
import { FailedBatch } from "./failed_batch";
import { KeepRest, KeptTogether, useTogether } from "./kept_together";

/** What stood in a cold place that failed: on hold, until the chef has decided on each batch. */
export function FailedPlaces() {
  const report = useReport<FailedPlaceRow>("failed-places");
  const doing = useDoing("/failed-places");
  const together = useTogether(doing);
  return (
    <Place title="Cold places that failed" under="On hold until you decide, batch by batch">
      <div class="stack narrow">
        {together.told.value ? <KeptTogether together={together} /> : <Done doing={doing} />}
        <Shown report={report} what="Looking at what stood there">
          {(rows, zone) => (
            <>
              {rows.length === 0 && <Nothing>Nothing waits to be decided.</Nothing>}
              {byPlace(rows).map((held) => (
                <section key={held.area_id} class="stack" aria-label={held.area}>
                  <h2>{held.area}</h2>
                  <p>{heldInWords(held)}</p>
                  <KeepRest held={held} together={together} />
                  <Batches held={held} zone={zone} doing={doing} onDecided={together.forget} />
                </section>
              ))}
              {rows[0] && <p class="soft small">{rows[0].caution}</p>}
            </>
          )}
        </Shown>
      </div>
    </Place>
  );
}

interface BatchesProps {
  held: PlaceHeld;
  zone: string;
  doing: Doing;
  onDecided: () => void;
}

/** A line for each batch, those of an item together, what dies first first; it opens to be decided. */
function Batches({ held, zone, doing, onDecided }: BatchesProps) {
  const opened = useSignal("");
  const row = held.rows.find(({ batch }) => batch === opened.value);
  const close = () => {
    opened.value = "";
  };
  return (
    <>
      <ul class="lines" aria-label={`What stood in ${held.area}`}>
        {held.rows.map((each) => (
          <li key={each.batch}>
            <button
              class="whole held"
              type="button"
              aria-haspopup="dialog"
              onClick={() => {
                opened.value = each.batch;
              }}
            >
              <Line row={each} zone={zone} />
            </button>
          </li>
        ))}
      </ul>
      {row && (
        <Panel title={`${row.item} ${row.label}`} onClose={close}>
          <FailedBatch
            row={row}
            zone={zone}
            doing={doing}
            onDecided={() => {
              close();
              onDecided();
            }}
          />
        </Panel>
      )}
    </>
  );
}

function Line({ row, zone }: { row: FailedPlaceRow; zone: string }) {
  const { mark, brief } = verdictOf(row);
  return (
    <>
      <span>
        <strong>{row.item}</strong> <span class="soft">{row.label}</span>
      </span>
      <span class="figure">{amount(row.on_hold)}</span>
      <span class="soft">
        <span aria-hidden="true">{mark} </span>
        {brief}
        {row.usable_until && `, until ${moment(row.usable_until, zone, now.value)}`}
      </span>
    </>
  );
}
