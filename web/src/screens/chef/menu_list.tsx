import { signal } from "@preact/signals";
import { now } from "../../door/clock";
import { useReport } from "../../door/reports";
import type { MenuRow } from "../../door/rows";
import { mayGive, mayRead } from "../../door/session";
import { ActBar, Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Link } from "../../parts/router";
import { Nothing } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { many } from "../../words/amounts";
import { dayName, dayOf, near } from "../../words/time";
import { CameShort } from "./came_short";
import { MenuCard } from "./menu_card";

/** What the list is narrowed to; it stays while a menu is looked at. */
const table = signal("");
const openOnly = signal(false);

/** The next days, day by day: each meal and table with its dishes, its state, and by when to choose. */
export function MenuList() {
  const report = useReport<MenuRow>("menus");
  return (
    <>
      <Place title="Menus">
        {mayRead("questions") && <CameShort />}
        <Shown report={report} what="Looking at the menus">
          {(rows, zone) => <List rows={rows} zone={zone} />}
        </Shown>
      </Place>
      {mayGive("propose") && (
        <ActBar>
          <Link class="button" to="/menus/several-days">
            Several days
          </Link>
          <Link class="button main" to="/menus/propose">
            Propose a menu
          </Link>
        </ActBar>
      )}
    </>
  );
}

function List({ rows, zone }: { rows: MenuRow[]; zone: string }) {
  const today = dayOf(new Date(now.value), zone);
  const ahead = rows.filter((row) => row.date >= today);
  const shown = ahead
    .filter((row) => table.value === "" || row.table === table.value)
    .filter((row) => !openOnly.value || isToChoose(row));
  const days = [...new Set(shown.map((row) => row.date))];
  return (
    <>
      <Filters
        tables={[...new Set(ahead.map((row) => row.table))]}
        open={ahead.filter(isToChoose)}
      />
      {mayRead("use-first") && (
        <Link class="touch" to="/use-first">
          What must be used first
        </Link>
      )}
      {mayRead("presence") && (
        <Link class="touch" to="/who-is-here">
          Who is here
        </Link>
      )}
      {mayRead("sheets") && (
        <Link class="touch" to="/sheets">
          Shown to the household
        </Link>
      )}
      {shown.length === 0 && (
        <Nothing>
          {openOnly.value
            ? "Nothing is left to choose."
            : "No menu stands here yet: propose one, and it is shown with what it needs."}
        </Nothing>
      )}
      <div class="menu-days">
        {days.map((day) => (
          <section key={day} aria-label={dayName(day, true)} class="stack tight">
            <h2>
              {dayName(day, true)} <DayWord day={day} today={today} />
            </h2>
            <ul class="lines">
              {shown
                .filter((row) => row.date === day)
                .map((row) => (
                  <MenuCard key={row.service} row={row} zone={zone} />
                ))}
            </ul>
          </section>
        ))}
      </div>
    </>
  );
}

function DayWord({ day, today }: { day: string; today: string }) {
  const said = near(day, today);
  return said === "today" || said === "tomorrow" ? <span class="soft">{said}</span> : null;
}

function Filters({ tables, open }: { tables: string[]; open: MenuRow[] }) {
  return (
    <div class="stack tight">
      <fieldset class="keys">
        <legend class="unseen">Whose table</legend>
        {["", ...tables].map((name) => (
          <Button
            key={name}
            pressed={table.value === name}
            onClick={() => {
              table.value = name;
            }}
          >
            {name === "" ? "all" : name}
          </Button>
        ))}
      </fieldset>
      <Button
        pressed={openOnly.value}
        onClick={() => {
          openOnly.value = !openOnly.value;
        }}
      >
        still to choose: {many(open.length, "menu")}
      </Button>
    </div>
  );
}

function isToChoose(row: MenuRow): boolean {
  return row.state === "proposed" && Date.parse(row.at) > now.value;
}
