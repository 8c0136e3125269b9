import { useSignal } from "@preact/signals";
import { now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { MenuRow } from "../../../door/rows";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { useGiving } from "../../../parts/giving";
import { Link } from "../../../parts/router";
import { Nothing, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { dishName, serviceTitle } from "../../../words/menus";
import { dayName } from "../../../words/time";
import { canLink, newLink, type SheetLink } from "./link";
import { Sent } from "./sent";

/** Which menus are shown to the household; then their link, this once, and their paper. */
export function SendSheet() {
  const report = useReport<MenuRow>("menus");
  const sent = useSignal<{ sheet: string; link: SheetLink | null } | null>(null);
  if (sent.value) return <Sent {...sent.value} />;
  return (
    <Shown report={report} what="Looking at the menus">
      {(rows) => (
        <Picking
          rows={rows.filter(isToChoose)}
          onSent={(sheet, link) => {
            sent.value = { sheet, link };
            scrollTo(0, 0);
          }}
        />
      )}
    </Shown>
  );
}

interface PickingProps {
  rows: MenuRow[];
  onSent: (sheet: string, link: SheetLink | null) => void;
}

function Picking({ rows, onSent }: PickingProps) {
  const tables = [...new Set(rows.map((row) => row.table))];
  const table = useSignal(tables[0] ?? "");
  const picked = useSignal<ReadonlySet<string>>(new Set(unshown(rows, table.value)));
  const { busy, answer, decide } = useGiving();
  const shown = rows.filter((row) => row.table === table.value);
  const refused = answer.value && !isGiven(answer.value) ? answer.value.problem : null;
  const send = async () => {
    const link = canLink() ? await newLink(location.origin) : null;
    const services = rows.map((row) => row.service).filter((id) => picked.value.has(id));
    const body = { services, ...(link ? { link: link.kept } : {}) };
    const given = await decide("send_sheet", body, undefined, many(services.length, "menu"));
    if (isGiven(given) && given.id) onSent(given.id, link);
  };
  return (
    <>
      <Place title="Show menus to the household">
        {rows.length === 0 && <Nothing>Nothing that is proposed is left to choose.</Nothing>}
        <fieldset class="keys">
          <legend class="unseen">Whose table</legend>
          {tables.map((name) => (
            <Button
              key={name}
              pressed={table.value === name}
              onClick={() => {
                table.value = name;
                picked.value = new Set(unshown(rows, name));
              }}
            >
              {name}
            </Button>
          ))}
        </fieldset>
        <fieldset class="stack">
          <legend>
            <h2>Which menus</h2>
          </legend>
          <ul class="lines">
            {shown.map((row) => (
              <li key={row.service}>
                <label class="picks">
                  <input
                    type="checkbox"
                    checked={picked.value.has(row.service)}
                    onChange={() => {
                      picked.value = turned(picked.value, row.service);
                    }}
                  />
                  <Line row={row} />
                </label>
              </li>
            ))}
          </ul>
        </fieldset>
        <p class="soft">
          They see the dishes with what is in them and by when to choose, the recipe of what is new
          to them, and not a word of stock. Who sits at this table and cannot eat something is named
          to this table only.
        </p>
        <Link class="touch" to="/sheets">
          What was shown before
        </Link>
      </Place>
      <ActBar>
        {refused && <Wrong problem={refused} />}
        <Button
          kind="main"
          disabled={busy.value || picked.value.size === 0}
          onClick={() => void send()}
        >
          {busy.value ? "Making the sheet" : `Show ${many(picked.value.size, "menu")}`}
        </Button>
      </ActBar>
    </>
  );
}

function Line({ row }: { row: MenuRow }) {
  return (
    <span class="stack tight">
      <strong>
        {dayName(row.date, true)}, {serviceTitle(row.meal, row.table)}
      </strong>
      <span>{row.courses.map(({ dishes }) => dishes.map(dishName).join(" or ")).join(" · ")}</span>
      {row.shown && <span class="soft">shown already</span>}
    </span>
  );
}

function isToChoose(row: MenuRow): boolean {
  return row.state === "proposed" && Date.parse(row.at) > now.value;
}

/** What of a table is proposed and not shown yet. */
function unshown(rows: MenuRow[], table: string): string[] {
  return rows.filter((row) => row.table === table && !row.shown).map((row) => row.service);
}

function turned(picked: ReadonlySet<string>, service: string): Set<string> {
  const next = new Set(picked);
  if (!next.delete(service)) next.add(service);
  return next;
}
