import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { type Asked, useReport } from "../../door/reports";
import type { ColdPlaceRow } from "../../door/rows";
import { ActBar, Button } from "../../parts/button";
import { useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Place } from "../../parts/frame";
import { go, Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import {
  DONE,
  type DoneKey,
  isLeft,
  limitsInWords,
  WARMTH_MARK,
  warmthAt,
  warmthInWords,
} from "../../words/cold";
import { degrees, shownDegrees } from "../../words/temperature";
import { Breach } from "./breach";
import { DegreeKeys } from "./degree_keys";

/** One cold place: what the thermometer shows, and what was done where that is not right. */
export function Reading({ area }: { area: string }) {
  const report = useReport<ColdPlaceRow>("temperatures");
  const rows = report.said.value?.rows ?? [];
  const row = rows.find(({ area_id }) => area_id === area);
  if (row) return <OnePlace row={row} rows={rows} report={report} />;
  return (
    <Place title="A cold place">
      <Shown report={report} what="Looking at the cold places">
        {() => <Nothing>There is no such cold place.</Nothing>}
      </Shown>
    </Place>
  );
}

interface OnePlaceProps {
  row: ColdPlaceRow;
  rows: ColdPlaceRow[];
  report: Asked<ColdPlaceRow>;
}

function OnePlace({ row, rows, report }: OnePlaceProps) {
  const doing = useDoing("/round");
  const typed = useSignal(row.kind === "frozen" ? "-" : "");
  const done = useSignal("");
  // what to do about a breach takes the place of the keys, which must not move while they are pressed
  const isRead = useSignal(false);
  const warmth = warmthAt(row, typed.value);
  const breach = warmth === "within" ? null : warmth;
  const next = breach ? undefined : nextOf(row, rows);
  const record = async () => {
    const temperature_c = degrees(typed.value);
    if (temperature_c === null) return;
    const words = `${row.area}, ${shownDegrees(typed.value, "C")}`;
    const body = { area: row.area_id, temperature_c, ...(breach ? doneOf(done.value) : {}) };
    const { outcome } = await doing.act("take_temperature", body, words);
    if (outcome === "refused" || outcome === "conflict") return;
    // a place that is not right keeps who stands before it; else on to the next
    go(next ? `/round/${next.area_id}` : "/round");
  };
  const turn = () => {
    isRead.value = !isRead.value;
    scrollTo(0, 0);
  };
  const asksWhat = breach !== null && !isRead.value;
  return (
    <>
      <Place title={row.area} under={limitsInWords(row)}>
        <Shown report={report} what="Looking at the cold places">
          {() => (
            <div class="stack narrow">
              <Done doing={doing} />
              {breach && isRead.value ? (
                <Breach row={row} warmth={breach} shown={typed.value} done={done} onBack={turn} />
              ) : (
                <>
                  <Display row={row} typed={typed.value} />
                  <DegreeKeys typed={typed} />
                </>
              )}
              <p class="soft small">
                Limit of {row.max_source}. {row.caution}
              </p>
              <Link class="touch" to="/round">
                All cold places
              </Link>
            </div>
          )}
        </Shown>
      </Place>
      <ActBar>
        <Button
          kind="main"
          onClick={() => (asksWhat ? turn() : void record())}
          disabled={!warmth || doing.busy.value}
        >
          {asksWhat ? "What to do now" : next ? `Save, next: ${next.area}` : "Save"}
        </Button>
      </ActBar>
    </>
  );
}

/** What the thermometer shows, as it was pressed, and at once whether that is right. */
function Display({ row, typed }: { row: ColdPlaceRow; typed: string }) {
  const warmth = warmthAt(row, typed);
  const look = warmth ? (warmth === "within" ? "accept" : "refuse") : "unknown";
  return (
    <>
      <output class="figure big degrees">{typed ? shownDegrees(typed, "C") : "— °C"}</output>
      <p class={`warmth ${look}`} role="status">
        {warmth ? (
          <>
            <span aria-hidden="true">{WARMTH_MARK[warmth]} </span>
            {shownDegrees(typed, "C")} is {warmthInWords(warmth)}.
          </>
        ) : (
          `It should be ${limitsInWords(row)}.`
        )}
      </p>
    </>
  );
}

function doneOf(value: string): { done?: DoneKey } {
  const found = DONE.find((each) => each.value === value);
  return found ? { done: found.value } : {};
}

/** The next place in walking order that is still to be read. */
function nextOf(row: ColdPlaceRow, rows: ColdPlaceRow[]): ColdPlaceRow | undefined {
  const at = rows.findIndex(({ area_id }) => area_id === row.area_id);
  const round = [...rows.slice(at + 1), ...rows.slice(0, at)];
  return round.find((each) => isLeft(each, now.value));
}
