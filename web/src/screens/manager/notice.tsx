import "../../look/manager.css";
import type { Report } from "../../door/reports";
import { useReport } from "../../door/reports";
import type { LongerNoticeRow, NoticeRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { Place } from "../../parts/frame";
import { Opens } from "../../parts/opens";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { amount, isNothing, listed, many } from "../../words/amounts";
import { inDays, minutesOf } from "../../words/time";
import { KeepIn } from "./keep_in";
import { LongerNotice } from "./longer_notice";
import { Returns, Spells } from "./spells";

/** What can be bought once a menu is chosen, what has to be kept in, and what another notice would change. */
export function Notice() {
  const report = useReport<NoticeRow>("notice");
  const longer = useReport<LongerNoticeRow>("longer-notice");
  return (
    <Place title="Bought in or kept in" under="Whether the notice is long enough to buy it">
      <Shown report={longer} what="Looking at other notices">
        {(rows) => <LongerNotice rows={rows} needed={neededOf(report.said.value)} />}
      </Shown>
      <Shown report={report} what="Looking at the larder">
        {(rows, zone) => <Larder rows={rows} zone={zone} />}
      </Shown>
    </Place>
  );
}

/** What notice the menu really needs, as the report says beside its rows. */
function neededOf(said: Report<NoticeRow> | null): string | null {
  return (said as { needed_by_menu?: string | null } | null)?.needed_by_menu ?? null;
}

function Larder({ rows, zone }: { rows: NoticeRow[]; zone: string }) {
  if (rows.length === 0) return <Nothing>Nothing is bought yet that is measured.</Nothing>;
  const kept = rows.filter(({ verdict }) => verdict === "kept_in");
  const open = kept.filter((row) => !row.floor_set);
  const set = kept.filter((row) => row.floor_set);
  const bought = rows.filter(({ verdict }) => verdict === "bought_in");
  return (
    <>
      <Spells rows={rows} />
      <Kept
        title="Kept in, and no level is set"
        rows={open}
        zone={zone}
        none="Everything that has to be kept in has its level."
      />
      <Kept title="Kept in, with a level" rows={set} zone={zone} none="Nothing has a level yet." />
      <details>
        <summary>Bought in once the menu is chosen: {many(bought.length, "item")}</summary>
        <ul class="lines">
          {bought.map((row) => (
            <li key={row.item_id} class="row ends base">
              <span>{row.item}</span>
              <span class="soft small">{row.needed ? `needs ${inDays(row.needed)}` : ""}</span>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Kept(props: { title: string; rows: NoticeRow[]; zone: string; none: string }) {
  const { title, rows, zone, none } = props;
  return (
    <section class="stack tight" aria-label={title}>
      <h2>
        {title}: {rows.length}
      </h2>
      {rows.length === 0 && <Nothing>{none}</Nothing>}
      <ul class="lines narrow">
        {rows.map((row) => (
          <One key={row.item_id} row={row} zone={zone} />
        ))}
      </ul>
    </section>
  );
}

function One({ row, zone }: { row: NoticeRow; zone: string }) {
  return (
    <li class="stack tight">
      <span class="row ends base">
        <Opens figure={row.item} title={row.item}>
          <Why row={row} zone={zone} />
        </Opens>
        <span>{row.enough ? `needs ${inDays(row.enough)}` : "no notice is enough"}</span>
      </span>
      <span class="soft small">{levelWords(row)}</span>
    </li>
  );
}

function levelWords({ floor, floor_set: set, order_up_to_set: upTo }: NoticeRow): string {
  if (set) return `At least ${amount(set)}${upTo ? `, ordered up to ${amount(upTo)}` : ""}`;
  if (floor && isNothing(floor)) return "Nothing of it was used so far.";
  return floor ? `By use so far: at least ${amount(floor)}` : "";
}

/** Who sells it, for which meals the notice is too short, who else could bring it, and its levels. */
function Why({ row, zone }: { row: NoticeRow; zone: string }) {
  return (
    <div class="stack">
      <p>
        {row.suppliers.length ? `Sold by ${listed(row.suppliers)}.` : "Nobody sells it yet."}{" "}
        {row.would_do.length > 0 && `The deliveries of ${listed(row.would_do)} would be in time.`}
      </p>
      {row.floor && row.order_up_to && !isNothing(row.order_up_to) && (
        <p>
          From use so far and the approved dishes: keep at least{" "}
          <strong>{amount(row.floor)}</strong> and order up to{" "}
          <strong>{amount(row.order_up_to)}</strong>. It orders nothing until it is set.
        </p>
      )}
      {mayGive("set_par") && <KeepIn row={row} />}
      <Returns row={row} zone={zone} />
      <section class="stack tight" aria-label="Too late for">
        <h3>Too late for</h3>
        <ul>
          {tooLate(row).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
    </div>
  );
}

/** A line for each weekday: its meals, and by how much the notice is too short at the worst. */
function tooLate({ fails }: NoticeRow): string[] {
  const days = new Map<string, NoticeRow["fails"]>();
  for (const fail of fails) days.set(fail.weekday, [...(days.get(fail.weekday) ?? []), fail]);
  return [...days].map(([weekday, meals]) => {
    const name = `${weekday[0]?.toUpperCase()}${weekday.slice(1)}`;
    const of = `${name}, ${listed(meals.map(({ meal }) => meal))}`;
    const lengths = meals.map(({ by }) => by);
    if (lengths.includes(null)) return `${of}: no delivery would do`;
    const worst = lengths.reduce((most, by) => (minutesOf(by) > minutesOf(most) ? by : most));
    return `${of}: ${meals.length > 1 ? "up to " : ""}${inDays(worst ?? "")} too short`;
  });
}
