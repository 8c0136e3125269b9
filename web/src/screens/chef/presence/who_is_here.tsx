import { useSignal } from "@preact/signals";
import { useReport } from "../../../door/reports";
import type { PresenceRow, Reports } from "../../../door/rows";
import { mayGive } from "../../../door/session";
import { ActBar, Button } from "../../../parts/button";
import { useDoing } from "../../../parts/doing";
import { Done } from "../../../parts/done";
import { Place } from "../../../parts/frame";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { AwayForm } from "./away_form";
import { DayHere } from "./day_here";
import { RotaForm } from "./rota_form";
import { Said } from "./said_lists";
import { StayForm } from "./stay_form";
import type { OneStay } from "./stay_words";

type Told = Reports["presence"];

/** Who comes and goes, who eats elsewhere, and how many eat at each table and meal. */
export function WhoIsHere() {
  const report = useReport<PresenceRow>("presence");
  const doing = useDoing("presence");
  const open = useSignal<"stay" | "away" | "rota" | OneStay | null>(null);
  const close = () => {
    open.value = null;
  };
  // what stands beside the rows of this report
  const told = report.said.value as Told | null;
  return (
    <>
      <Place title="Who is here" under="Who comes and goes, and how many eat at each table">
        <Done doing={doing} />
        <Shown report={report} what="Counting heads">
          {(rows, zone) => (
            <div class="stack">
              {mayGive("say_away") && (
                <div class="row">
                  <Button
                    onClick={() => {
                      open.value = "away";
                    }}
                  >
                    Eats out
                  </Button>
                  <Button
                    onClick={() => {
                      open.value = "rota";
                    }}
                  >
                    Rota
                  </Button>
                </div>
              )}
              {told && (
                <Said
                  {...{ told, zone, doing }}
                  onStay={(stay) => {
                    open.value = stay;
                  }}
                />
              )}
              {rows.length === 0 && (
                <Nothing>No table has had a meal yet: propose a menu first.</Nothing>
              )}
              {daysOf(rows).map(([day, ofDay]) => (
                <DayHere key={day} day={day} rows={ofDay} zone={zone} />
              ))}
            </div>
          )}
        </Shown>
      </Place>
      {mayGive("say_stay") && (
        <ActBar>
          <Button
            kind="main"
            onClick={() => {
              open.value = "stay";
            }}
          >
            Somebody comes
          </Button>
        </ActBar>
      )}
      {told && open.value === "stay" && <StayForm told={told} doing={doing} onClose={close} />}
      {told && typeof open.value === "object" && open.value && (
        <StayForm told={told} doing={doing} onClose={close} of={open.value} />
      )}
      {told && open.value === "away" && <AwayForm told={told} doing={doing} onClose={close} />}
      {told && open.value === "rota" && <RotaForm told={told} doing={doing} onClose={close} />}
    </>
  );
}

function daysOf(rows: PresenceRow[]): [string, PresenceRow[]][] {
  const days = new Map<string, PresenceRow[]>();
  for (const row of rows) days.set(row.date, [...(days.get(row.date) ?? []), row]);
  return [...days];
}
