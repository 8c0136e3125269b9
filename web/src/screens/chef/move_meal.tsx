import { useComputed, useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { HouseRow, MenuRow } from "../../door/rows";
import { Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Panel } from "../../parts/panel";
import { go } from "../../parts/router";
import { Said } from "../../parts/said";
import { Shown } from "../../parts/shown";
import { STATES } from "../../words/menus";
import { clock, dayName } from "../../words/time";
import { Answered } from "./answered";
import { MEALS, standsAt } from "./draft";
import { daysAhead } from "./draft_days";
import { useEffects } from "./effects";
import { EffectsShown } from "./effects_shown";
import { isWhole, Stepper } from "./stepper";
import { OTHER, When } from "./when";

interface MoveMealProps {
  row: MenuRow;
  zone: string;
  onClose: () => void;
}

/** Thursday instead, an hour later, or a picnic: the same dishes at another time or another table. */
export function MoveMeal(props: MoveMealProps) {
  const report = useReport<HouseRow>("house");
  return (
    <Panel title="Move this meal" onClose={props.onClose}>
      <Shown report={report} what="Looking for the tables">
        {(rows) => (rows[0] ? <MoveForm house={rows[0]} {...props} /> : null)}
      </Shown>
    </Panel>
  );
}

function MoveForm({ house, row, zone, onClose }: MoveMealProps & { house: HouseRow }) {
  const seen = useSignal(row);
  const date = useSignal(row.date);
  const meal = useSignal(row.meal);
  const otherMeal = useSignal("");
  const table = useSignal(row.table);
  const time = useSignal(clock(row.at, zone));
  const covers = useSignal(String(row.covers));
  const { busy, answer, decide } = useGiving();
  const to = useComputed(() => ({
    date: date.value,
    meal: meal.value === OTHER ? otherMeal.value.trim() : meal.value,
    table: table.value,
    time: time.value,
    covers: covers.value,
  }));
  const isTime = /^([01]\d|2[0-3]):[0-5]\d$/.test(time.value);
  const isReady = to.value.meal !== "" && isTime && isWhole(covers.value) && covers.value !== "0";
  const effects = useEffects(row.service, isReady && row.state === "confirmed" ? to.value : null);
  const menus = useReport<MenuRow>("menus").said.value?.rows ?? [];
  const other = standsAt(menus, to.value);
  const isTaken =
    other !== undefined && other.service !== row.service && other.state !== "taken_off";
  const isSame =
    to.value.date === row.date &&
    to.value.meal === row.meal &&
    to.value.table === row.table &&
    to.value.time === clock(row.at, zone) &&
    Number(covers.value) === row.covers;
  const move = async () => {
    const { service, version } = seen.value;
    const body = { service, to: { ...to.value, covers: Number(covers.value) } };
    if (isGiven(await decide("move_service", body, version))) {
      onClose();
      go("/menus");
    }
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        if (isReady) void move();
      }}
    >
      <When
        {...{ house, date, meal, otherMeal, table, time }}
        meals={[...new Set([row.meal, ...MEALS])]}
        days={daysAhead(zone)}
      >
        <Stepper label="Covers" value={covers} />
      </When>
      {isTaken && (
        <Said kind="due">
          <span>
            A menu stands there already: {STATES[other.state]}. Take that one off first, or choose
            another day, meal or table.
          </span>
        </Said>
      )}
      {row.state === "confirmed" && !isSame && !isTaken && (
        <EffectsShown effects={effects} zone={zone} />
      )}
      <Answered answer={answer} seen={seen.value} stands={row} onLook={onClose} />
      <Button kind="main" type="submit" disabled={!isReady || isSame || isTaken || busy.value}>
        {isSame ? "Nothing changed yet" : `Have it on ${dayName(date.value, true)}, ${time.value}`}
      </Button>
    </form>
  );
}
