import { now } from "../../../door/clock";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { SheetRow } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { useGiving } from "../../../parts/giving";
import { Link } from "../../../parts/router";
import { Nothing, Said, Wrong } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { many } from "../../../words/amounts";
import { answerLines } from "../../../words/answers";
import { STATES, serviceTitle } from "../../../words/menus";
import { dayName, moment } from "../../../words/time";

type Service = SheetRow["services"][number];

/** The sheets that were sent: when, whether they were read, what was answered. */
export function SheetList() {
  const report = useReport<SheetRow>("sheets");
  return (
    <>
      <Place title="Shown to the household">
        <Shown report={report} what="Looking what was shown">
          {(rows, zone) => (
            <>
              {rows.length === 0 && (
                <Nothing>
                  No menu was shown yet. Whoever chooses gets a link or a sheet of paper, and needs
                  no password.
                </Nothing>
              )}
              <ul class="lines">
                {rows.map((row) => (
                  <Sheet key={row.sheet} row={row} zone={zone} />
                ))}
              </ul>
            </>
          )}
        </Shown>
      </Place>
      {mayGive("send_sheet") && (
        <ActBar>
          <Link class="button main" to="/sheets/new">
            Show menus to the household
          </Link>
        </ActBar>
      )}
    </>
  );
}

function Sheet({ row, zone }: { row: SheetRow; zone: string }) {
  const { busy, answer, decide } = useGiving();
  const isShown = row.state === "shown";
  const title = `${many(row.services.length, "menu")}${row.table ? `, ${row.table}` : ""}`;
  const refused = answer.value && !isGiven(answer.value) ? answer.value.problem : null;
  return (
    <li class="stack tight">
      <h2>
        {title} <span class="soft">{row.to && `for ${row.to}`}</span>
      </h2>
      <span>
        Sent {moment(row.sent_at, zone, now.value)} by {row.sent_by}. {readSaid(row, zone)}{" "}
        {standsSaid(row, zone)}
      </span>
      <ul class="stack tight">
        {row.services.map((service) => (
          <Answered key={service.service} service={service} zone={zone} />
        ))}
      </ul>
      <div class="row">
        {isShown && (
          <a class="button" href={`/my-sheet/${row.sheet}`}>
            Open it to answer<span class="unseen">: {title}</span>
          </a>
        )}
        <a class="button quiet" href={`/api/sheets/${row.sheet}/sheet.pdf`}>
          On paper<span class="unseen">: {title}</span>
        </a>
        {isShown && mayGive("withdraw_sheet") && (
          <Button
            kind="quiet"
            disabled={busy.value}
            onClick={() => void decide("withdraw_sheet", { sheet: row.sheet }, row.version)}
          >
            Withdraw<span class="unseen">: {title}</span>
          </Button>
        )}
      </div>
      {answer.value && isGiven(answer.value) && (
        <Said kind="done">
          Withdrawn: the link opens nothing any more. What was answered stays.
        </Said>
      )}
      {refused && <Wrong problem={refused} />}
    </li>
  );
}

function Answered({ service, zone }: { service: Service; zone: string }) {
  const { answer } = service;
  return (
    <li>
      <strong>
        {dayName(service.date)} {serviceTitle(service.meal, service.table)}
      </strong>{" "}
      <span class="soft">{STATES[service.state]}</span>
      {answer ? (
        <span class="stack tight">
          {answer.by}, {moment(answer.at, zone, now.value)}
          {answerLines(answer).map((line) => (
            <span key={line}>{line}</span>
          ))}
        </span>
      ) : (
        service.state === "proposed" && <span class="soft">, not answered yet</span>
      )}
    </li>
  );
}

function readSaid(row: SheetRow, zone: string): string {
  if (!row.has_link) return "On paper only.";
  if (!row.read_at) return "The link was not opened yet.";
  return `The link was first opened ${moment(row.read_at, zone, now.value)}.`;
}

function standsSaid(row: SheetRow, zone: string): string {
  if (row.state === "withdrawn") return "It was withdrawn.";
  if (row.state === "over") return "Its time is over.";
  return `It is shown until ${moment(row.until, zone, now.value)}.`;
}
