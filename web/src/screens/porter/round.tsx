import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { ColdPlaceRow } from "../../door/rows";
import { useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Place } from "../../parts/frame";
import { below, Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { isLeft, limitsInWords, roundName, WARMTH_MARK, warmthInWords } from "../../words/cold";
import { shownDegrees } from "../../words/temperature";
import { moment } from "../../words/time";
import { Checks } from "./checks";
import { Cooling } from "./cooling";
import { Reading } from "./reading";

/** The round of the cold places, what cools, and the checks beside them. */
export function Round() {
  const [first] = below("/round");
  if (first === "cooling") return <Cooling />;
  if (first === "checks") return <Checks />;
  return first ? <Reading key={first} area={first} /> : <Places />;
}

/** Every cold place in the order of the shelves: its last temperature, and whether it is still to be read. */
function Places() {
  const report = useReport<ColdPlaceRow>("temperatures");
  const doing = useDoing("/round");
  return (
    <Place title="Temperatures" under="Every cold place, in walking order">
      <div class="stack narrow">
        <Done doing={doing} />
        <Shown report={report} what="Looking at the cold places">
          {(rows, zone) => <List rows={rows} zone={zone} />}
        </Shown>
        <nav class="stack tight" aria-label="Beside the round">
          <Link class="button plain" to="/round/cooling">
            What cools now
          </Link>
          <Link class="button plain" to="/round/checks">
            Probe check and cleaning
          </Link>
        </nav>
      </div>
    </Place>
  );
}

function List({ rows, zone }: { rows: ColdPlaceRow[]; zone: string }) {
  const [first] = rows;
  if (!first) return <Nothing>This house has no chilled or frozen place.</Nothing>;
  const left = rows.filter((row) => isLeft(row, now.value));
  return (
    <>
      <p role="status">
        <strong>
          {left.length === 0
            ? `All are read: the ${roundName(first)} is done.`
            : `${left.length} of ${rows.length} left of the ${roundName(first)}.`}
        </strong>
      </p>
      <ul class="lines" aria-label="Cold places">
        {rows.map((row) => (
          <li key={row.area_id}>
            <Link class="whole" to={`/round/${row.area_id}`}>
              <div class="row ends base">
                <strong>{row.area}</strong>
                <span class="figure">
                  {row.last ? shownDegrees(row.last.temperature_c, "C") : "not read yet"}
                </span>
              </div>
              <Stands row={row} zone={zone} />
            </Link>
          </li>
        ))}
      </ul>
      <p class="soft small">{first.caution}</p>
    </>
  );
}

function Stands({ row, zone }: { row: ColdPlaceRow; zone: string }) {
  const { last } = row;
  return (
    <>
      {last && (
        <div class={`warmth ${last.warmth === "within" ? "accept" : "refuse"}`}>
          <span aria-hidden="true">{WARMTH_MARK[last.warmth]} </span>
          {warmthInWords(last.warmth)}
        </div>
      )}
      {row.failed && <strong>Has failed: what stands there is on hold.</strong>}
      <div class="soft">
        {last && `${moment(last.at, zone, now.value)}, ${last.person} · `}
        {limitsInWords(row)}
        {isLeft(row, now.value) && <strong> · to be read</strong>}
      </div>
    </>
  );
}
