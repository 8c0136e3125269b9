import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { CheckRow, HouseRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { type Doing, useDoing } from "../../parts/doing";
import { Done } from "../../parts/done";
import { Field, Select } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Shown } from "../../parts/shown";
import { degrees, shownDegrees } from "../../words/temperature";
import { moment } from "../../words/time";

/** Probes and cleaning: what was done is one key again, with its date. */
export function Checks() {
  const report = useReport<CheckRow>("checks");
  const doing = useDoing("/round/checks");
  return (
    <Place title="Probe check and cleaning">
      <div class="stack narrow">
        <Done doing={doing} />
        <Shown report={report} what="Looking at what was checked">
          {(rows, zone) => (
            <>
              <Cleaning rows={lastOfEach(rows, "cleaning")} zone={zone} doing={doing} />
              <Probes rows={lastOfEach(rows, "probe")} zone={zone} doing={doing} />
            </>
          )}
        </Shown>
        <Link class="touch" to="/round">
          All cold places
        </Link>
      </div>
    </Place>
  );
}

/** The last time of each thing that was ever checked or cleaned: the house's own list. */
function lastOfEach(rows: CheckRow[], kind: CheckRow["kind"]): CheckRow[] {
  const found = new Map<string, CheckRow>();
  for (const row of rows) {
    const key = `${row.what} ${row.area ?? ""}`;
    if (row.kind === kind && !found.has(key)) found.set(key, row);
  }
  return [...found.values()];
}

interface ListProps {
  rows: CheckRow[];
  zone: string;
  doing: Doing;
}

const ANYWHERE = "";

function Cleaning({ rows, zone, doing }: ListProps) {
  const house = useReport<HouseRow>("house");
  const what = useSignal("");
  const area = useSignal(ANYWHERE);
  const areas = house.said.value?.rows[0]?.areas ?? [];
  const clean = async (thing: string, place: string | null) => {
    const body = { what: thing, ...(place ? { area: place } : {}) };
    await doing.act("clean", body, place ? `${thing}, ${place}` : thing);
    what.value = "";
  };
  return (
    <section class="stack" aria-label="Cleaning">
      <h2>Cleaning</h2>
      <ul class="lines">
        {rows.map((row) => (
          <li key={row.command} class="row ends">
            <span>
              {row.area ? `${row.what}, ${row.area}` : row.what}
              <span class="soft">
                {" "}
                {moment(row.at, zone, now.value)}, {row.person}
              </span>
            </span>
            <Button onClick={() => void clean(row.what, row.area)} disabled={doing.busy.value}>
              Cleaned<span class="unseen"> {row.what}</span>
            </Button>
          </li>
        ))}
      </ul>
      <Field label="Something else that was cleaned" value={what} enterKeyHint="done" />
      <Select
        label="Where"
        value={area}
        options={[
          { value: ANYWHERE, label: "no storage area" },
          ...areas.map((each) => ({ value: each.area, label: each.area })),
        ]}
      />
      <Button
        onClick={() => void clean(what.value.trim(), area.value || null)}
        disabled={!what.value.trim() || doing.busy.value}
      >
        Cleaned
      </Button>
    </section>
  );
}

function Probes({ rows, zone, doing }: ListProps) {
  const probe = useSignal(rows[0]?.what ?? "");
  const ice = useSignal("");
  const boiling = useSignal("");
  const [ice_c, boiling_c] = [degrees(ice.value), degrees(boiling.value)];
  const check = async () => {
    const shown = { ...(ice_c ? { ice_c } : {}), ...(boiling_c ? { boiling_c } : {}) };
    await doing.act("check_probe", { probe: probe.value.trim(), ...shown }, probe.value.trim());
    ice.value = "";
    boiling.value = "";
  };
  return (
    <section class="stack" aria-label="Probe check">
      <h2>Probe check</h2>
      <p class="soft">
        In a glass of ice and water it shows 0 °C, in boiling water 100 °C; more than a degree off,
        it is not used any more. High up, water boils cooler.
      </p>
      <ul class="lines">
        {rows.map((row) => (
          <li key={row.command}>
            <strong>{row.what}</strong> {probeWords(row)}
            <span class="soft">
              {" "}
              {moment(row.at, zone, now.value)}, {row.person}
            </span>
          </li>
        ))}
      </ul>
      <Field label="Which probe" value={probe} />
      <div class="pair">
        <Field label="In ice and water, °C" value={ice} inputMode="decimal" />
        <Field label="In boiling water, °C" value={boiling} inputMode="decimal" />
      </div>
      <Button
        onClick={() => void check()}
        disabled={!probe.value.trim() || !(ice_c || boiling_c) || doing.busy.value}
      >
        Probe checked
      </Button>
    </section>
  );
}

function probeWords(row: CheckRow): string {
  const shown = [row.ice_c, row.boiling_c].flatMap((each) =>
    each === null ? [] : [shownDegrees(each, "C")],
  );
  const right = row.is_right === null ? "" : row.is_right ? " ✓ right" : " ✕ wrong: do not use it";
  return `${shown.join(" and ")}${right}`;
}
