import "../../../look/manager.css";
import { now } from "../../../door/clock";
import { useReport } from "../../../door/reports";
import type { AlertRow, Reports } from "../../../door/rows";
import { mayGive, me } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { type Doing, undoOf, useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { TimeLeft } from "../../../parts/time_left";
import { Ways } from "../../../parts/ways";
import { amount } from "../../../words/amounts";
import { moment } from "../../../words/time";
import { reason } from "../reason";
import { nobodyWords } from "../stops";
import { DayLetter } from "./day_letter";
import { MyCalendar } from "./my_calendar";
import { named, STAGES, STOPS } from "./words";

/** What presses: by when something has to be ordered, what was missed, and who sees to it. */
export function Alerts() {
  const report = useReport<AlertRow>("alerts");
  const doing = useDoing("alerts");
  // what stands beside the rows of this report
  const told = report.said.value as Reports["alerts"] | null;
  return (
    <Place title="Alerts" under="What to order or stop by when, and what was missed">
      <Done doing={doing} />
      <Shown report={report} what="Looking at the deadlines">
        {(rows, zone) =>
          rows.length === 0 ? (
            <Nothing>Nothing presses. What is due later stands under Deadlines.</Nothing>
          ) : (
            <div class="orders">
              {rows.map((row) => (
                <One key={row.alert} row={row} zone={zone} doing={doing} />
              ))}
            </div>
          )
        }
      </Shown>
      <div class="stack narrow">
        <DayLetter told={told} />
        <MyCalendar />
      </div>
      <ActBar>
        <Link to="/deadlines" class="button main">
          Order
        </Link>
      </ActBar>
    </Place>
  );
}

function One({ row, zone, doing }: { row: AlertRow; zone: string; doing: Doing }) {
  return (
    <article class="card stack" aria-label={named(row)}>
      <header class="stack tight">
        <div class="row ends base">
          <h2>{named(row)}</h2>
          <span class={`alert ${row.stage}`}>{(row.nobody ? STOPS : STAGES)[row.stage]}</span>
        </div>
        {row.order_by && row.stage !== "missed" && (
          <TimeLeft
            at={row.order_by}
            now={now.value}
            zone={zone}
            what={row.nobody ? "tell them by" : "order by"}
          />
        )}
        <p>{standing(row, zone)}</p>
      </header>
      <ul class="lines">
        {row.lines.map((line) => (
          <li key={line.item + (line.pack ?? "")}>
            <strong>
              {row.stage === "missed" ? amount(line.lacking) : `${line.packs} × ${line.pack}`}{" "}
              {line.item}
            </strong>
            {line.at_risk && <strong> may not come</strong>}
            <span class="soft small"> for {line.because.map(reason).join("; ")}</span>
          </li>
        ))}
      </ul>
      {row.stage !== "missed" && row.order_given && <HowToOrder given={row.order_given} />}
      {row.stage === "missed" && <Ways ways={row.ways_out} zone={zone} />}
      <SeesTo row={row} zone={zone} doing={doing} />
    </article>
  );
}

/** How its supplier takes orders, so that nobody has to look it up in the last minutes. */
function HowToOrder({ given }: { given: NonNullable<AlertRow["order_given"]> }) {
  const address = given.way === "email" ? given.email : null;
  const said = [address, given.words].filter(Boolean).join(", ");
  return (
    <p>
      {given.way ? GIVE[given.way] : "How they take orders"}
      {said && `: ${said}`}.
    </p>
  );
}

const GIVE = {
  telephone: "Telephone",
  email: "Send it by e-mail",
  portal: "Order on their own page",
  by_hand: "Give it by hand",
};

function standing(row: AlertRow, zone: string): string {
  if (!row.order_by || !row.delivery) return "No supplier brings it in time.";
  if (row.nobody) {
    const comes = moment(row.delivery, zone, now.value);
    return `${nobodyWords(row.nobody)} Their standing order comes ${comes}: tell them, then cancel it under Deadlines.`;
  }
  if (row.stage === "missed") {
    return `Orders were taken until ${moment(row.order_by, zone, now.value)}.`;
  }
  return `For the delivery of ${moment(row.delivery, zone, now.value)}.`;
}

/** Who sees to it, so that nobody else need; the alert stays until it is done. */
function SeesTo({ row, zone, doing }: { row: AlertRow; zone: string; doing: Doing }) {
  const by = row.seen_to;
  if (by) {
    const mine = by.person === me.value?.person.name;
    return (
      <div class="row ends base">
        <span>
          <strong>{mine ? "You see to it" : `${by.person} sees to it`}</strong>, since{" "}
          {moment(by.at, zone, now.value)}
        </span>
        {mine && (
          <Button
            disabled={doing.busy.value}
            onClick={() => void doing.undo(undoOf(by.command, doing.place, named(row)))}
          >
            Not me after all
          </Button>
        )}
      </div>
    );
  }
  if (!row.raised_at || !mayGive("see_to_alert")) return null;
  return (
    <Button
      disabled={doing.busy.value}
      onClick={() => void doing.act("see_to_alert", { alert: row.alert }, named(row))}
    >
      I see to it<span class="unseen">: {named(row)}</span>
    </Button>
  );
}
