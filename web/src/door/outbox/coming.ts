import type { BodyOf } from "../command";
import { lastDay } from "../house_days";
import { change, datedBy, inUnit, type Named, type StandingRow } from "./batch_parts";
import { arrived } from "./dating";

/** The shelf after a line of a delivery; what is refused at the door never stands on it. */
export function received(
  rows: StandingRow[],
  body: BodyOf<"receive">,
  at: string,
  named: Named,
): StandingRow[] {
  if (body.verdict === "refuse") return rows;
  return came(rows, body, at, named, body.verdict === "hold");
}

/** What came into the house, as any of the commands that bring something say it. */
interface Coming extends Pick<BodyOf<"receive">, "batch" | "item" | "quantity"> {
  area?: string | null | undefined;
  label?: string | null | undefined;
  lot?: string | null | undefined;
  date_mark?: BodyOf<"receive">["date_mark"];
}

/** The shelf with what came, a batch of its own. */
export function came(
  rows: StandingRow[],
  body: Coming,
  at: string,
  named: Named,
  asked = false,
): StandingRow[] {
  const item = named.item(body.item);
  const value = item && inUnit(body.quantity, item.unit);
  if (!item || !value || !body.area) return rows;
  const { name, isFrozen } = named.area(body.area);
  const whole = { value, unit: item.unit };
  const nothing = change(whole, "0");
  const dated = arrived(body.date_mark, item, isFrozen, at, named.zone);
  const isHeld = asked || dated.isHeld;
  const made: StandingRow = {
    item: item.name,
    item_id: item.id,
    batch: body.batch,
    label: body.label ?? "",
    numbered: [],
    area: name,
    areas: { [name]: whole },
    state: isFrozen ? "frozen" : "sealed",
    was_thawed: false,
    date_mark: { kind: body.date_mark?.kind ?? "none", date: markDay(body) },
    ...datedBy(dated.life, at),
    on_hand: whole,
    pieces: null,
    promised: nothing,
    on_hold: isHeld ? whole : nothing,
    emergency: nothing,
    available: isHeld ? nothing : whole,
    lot: body.lot ?? null,
  };
  return [...rows, made];
}

/** The last day that a mark allows, as the house writes it; a mark may name only its month. */
function markDay({ date_mark: mark }: Coming): string | null {
  return mark?.date ? lastDay(mark.date) : null;
}
