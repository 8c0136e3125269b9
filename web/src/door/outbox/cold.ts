import type { CheckRow, ColdPlaceRow, CoolingRow } from "../rows";
import type { Entry } from "../store";
import { warmthOf } from "../warmth";
import { madeAt } from "./made_at";
import { takenBack } from "./taken_back";

/** The cold places with the readings of this device in them, judged as the house will judge them. */
export function placesShown(rows: ColdPlaceRow[], fresh: Entry[]): ColdPlaceRow[] {
  const back = takenBack(fresh);
  return rows.map((row) => {
    const told = row.readings.filter(({ command }) => !back.has(command));
    const own = fresh.flatMap((entry) => {
      const { command } = entry;
      if (command.kind !== "take_temperature" || back.has(command.id)) return [];
      const { area, temperature_c, done, note } = command.body;
      if (area !== row.area_id) return [];
      const shown = String(temperature_c);
      const warmth = warmthOf(row, shown);
      const of = { command: command.id, at: madeAt(entry), person: command.person ?? "" };
      return [{ ...of, temperature_c: shown, warmth, done: done ?? null, note: note ?? null }];
    });
    if (own.length === 0 && told.length === row.readings.length) return row;
    const readings = [...told, ...own].sort((one, other) => one.at.localeCompare(other.at));
    const earlier = row.last && !back.has(row.last.command) ? row.last : null;
    const rounds = row.rounds.map((each) => ({
      ...each,
      taken: readings.some(({ at }) => each.start <= at && at < each.end),
    }));
    return { ...row, readings, rounds, last: readings.at(-1) ?? earlier };
  });
}

/** What cools with the readings of this device; the house judges them once it has them. */
export function coolingsShown(rows: CoolingRow[], fresh: Entry[]): CoolingRow[] {
  const back = takenBack(fresh);
  return rows.map((row) => {
    const told = row.readings.filter(({ command }) => !back.has(command));
    const own = fresh.flatMap((entry) => {
      const { command } = entry;
      if (command.kind !== "cool" || back.has(command.id)) return [];
      if (command.body.batch !== row.batch) return [];
      const temperature_c = String(command.body.temperature_c);
      return [
        { command: command.id, at: madeAt(entry), temperature_c, person: command.person ?? "" },
      ];
    });
    if (own.length === 0 && told.length === row.readings.length) return row;
    return { ...row, readings: [...told, ...own] };
  });
}

/** The checks and cleanings with those of this device; whether a probe was right the house says. */
export function checksShown(rows: CheckRow[], fresh: Entry[]): CheckRow[] {
  const back = takenBack(fresh);
  const own = fresh.flatMap((entry): CheckRow[] => {
    const { command } = entry;
    if (back.has(command.id)) return [];
    const of = {
      at: madeAt(entry),
      person: command.person ?? "",
      command: command.id,
      is_right: null,
    };
    if (command.kind === "clean") {
      const { what, area = null } = command.body;
      return [{ ...of, kind: "cleaning", what, area, ice_c: null, boiling_c: null }];
    }
    if (command.kind !== "check_probe") return [];
    const { probe, ice_c = null, boiling_c = null } = command.body;
    const [ice, boiling] = [ice_c, boiling_c].map((shown) => (shown === null ? null : `${shown}`));
    return [
      {
        ...of,
        kind: "probe",
        what: probe,
        area: null,
        ice_c: ice ?? null,
        boiling_c: boiling ?? null,
      },
    ];
  });
  return [...own.reverse(), ...rows.filter(({ command }) => !back.has(command))];
}
