import { type Signal, useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ColdPlaceRow } from "../../door/rows";
import { ActBar, Button } from "../../parts/button";
import { useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Choice } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { go, Link } from "../../parts/router";
import { Nothing, Said } from "../../parts/said";
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
import { DegreeKeys } from "./degree_keys";

/** One cold place: what the thermometer shows, and what was done where that is not right. */
export function Reading({ area }: { area: string }) {
  const report = useReport<ColdPlaceRow>("temperatures");
  const row = report.said.value?.rows.find(({ area_id }) => area_id === area);
  return (
    <Place title={row?.area ?? "A cold place"} under={row && limitsInWords(row)}>
      <Shown report={report} what="Looking at the cold places">
        {(rows) =>
          row ? <Keys row={row} rows={rows} /> : <Nothing>There is no such cold place.</Nothing>
        }
      </Shown>
    </Place>
  );
}

function Keys({ row, rows }: { row: ColdPlaceRow; rows: ColdPlaceRow[] }) {
  const doing = useDoing("/round");
  const typed = useSignal(row.kind === "frozen" ? "-" : "");
  const done = useSignal("");
  const warmth = warmthAt(row, typed.value);
  const temperature_c = degrees(typed.value);
  const next = nextOf(row, rows);
  const record = async () => {
    if (warmth === null || temperature_c === null) return;
    const did = warmth === "within" ? {} : doneOf(done.value);
    const words = `${row.area}, ${shownDegrees(typed.value, "C")}`;
    const body = { area: row.area_id, temperature_c, ...did };
    const { outcome } = await doing.act("take_temperature", body, words);
    if (outcome === "refused" || outcome === "conflict") return;
    // a place that is not right keeps who stands before it; else on to the next
    go(warmth === "within" && next ? `/round/${next.area_id}` : "/round");
  };
  return (
    <div class="stack narrow with-bar">
      <Done doing={doing} />
      <output class="figure big degrees">
        {typed.value ? shownDegrees(typed.value, "C") : "— °C"}
      </output>
      <p
        class={`warmth ${warmth ? (warmth === "within" ? "accept" : "refuse") : "unknown"}`}
        role="status"
      >
        {warmth ? (
          <>
            <span aria-hidden="true">{WARMTH_MARK[warmth]} </span>
            {shownDegrees(typed.value, "C")} is {warmthInWords(warmth)}.
            {warmth !== "within" && " What to do stands below the keys."}
          </>
        ) : (
          `It should be ${limitsInWords(row)}.`
        )}
      </p>
      <DegreeKeys typed={typed} />
      {warmth && warmth !== "within" && <Breach row={row} warmth={warmth} done={done} />}
      <p class="soft small">
        Limit of {row.max_source}. {row.caution}
      </p>
      <Link class="touch" to="/round">
        All cold places
      </Link>
      <ActBar>
        <Button kind="main" onClick={() => void record()} disabled={!warmth || doing.busy.value}>
          {next && warmth === "within" ? `Save, next: ${next.area}` : "Save"}
        </Button>
      </ActBar>
    </div>
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

interface BreachProps {
  row: ColdPlaceRow;
  warmth: "too_warm" | "too_cold";
  done: Signal<string>;
}

/** What to do about it at once, without the house, and what was done. */
function Breach({ row, warmth, done }: BreachProps) {
  return (
    <>
      <Said kind="due">
        <strong>{warmth === "too_warm" ? "Too warm: do this now" : "Too cold"}</strong>
        {warmth === "too_warm" ? (
          <span>
            Close the door and look again in {row.again_minutes} minutes. If it is still too warm
            then, what stands there goes on hold and the chef decides: tell the chef now, and use
            nothing that feels warm.
          </span>
        ) : (
          <span>Set it warmer, and look whether anything has frozen that must not.</span>
        )}
      </Said>
      <Choice legend="What was done?" value={done} options={[...DONE]} />
    </>
  );
}
