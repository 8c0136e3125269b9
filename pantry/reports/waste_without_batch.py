"""What was lost of which no batch is known, apart from what the ledger has as waste.

None of it has a cost: what was served is accounted for as served, and what a batch without a label
had cost is missing at the next count. Told as money here it would be counted twice.
"""

from datetime import timedelta

from pantry.handbook.waste_reasons import is_avoidable
from pantry.records import pictures
from pantry.records.rows import every
from pantry.records.tables import WasteWithoutBatchRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.reports.waste import days_of_waste, monday_of, weight
from pantry.rules.house_time import end_of_day, local_date, start_of_day
from pantry.rules.measure import Quantity
from pantry.rules.stock import BaseUnit, Item


def waste_without_batch(view: View, first: str | None = None, last: str | None = None) -> list[Row]:
    """A row for each record, the oldest first, without what was taken back; of whom is not said.

    Args:
        view: the house.
        first: the first day, a civil date of the house; None: twelve weeks of which this is one.
        last: the last day; None: today.

    Raises:
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    days = days_of_waste(view, first, last)
    begins = start_of_day(days[0], view.zone)
    ends = end_of_day(days[1], view.zone) + timedelta(seconds=1)
    kept = every(view.connection, WasteWithoutBatchRow, house=view.id)
    rows = [row for row in kept if begins <= row.at < ends]
    named = pictures.named_by_each(view.connection, view.id, sorted(row.command for row in rows))
    rows.sort(key=lambda row: (row.at, row.command))
    return [_row(view, row, named.get(row.command, [])) for row in rows]


def _row(view: View, row: WasteWithoutBatchRow, photos: list[str]) -> Row:
    monday = monday_of(local_date(row.at, view.zone))
    year, week, _ = monday.isocalendar()
    lost = Quantity(row.quantity, BaseUnit(row.unit))
    return {
        "week": f"{year}-W{week:02}",
        "monday": monday.isoformat(),
        "at": instant(row.at),
        "what": row.what,
        "item_id": row.item,
        "dish_id": row.dish,
        "reason": row.reason,
        "avoidable": is_avoidable(row.reason),
        "destination": row.destination,
        "quantity": lost.as_json(),
        "weight": _weight(view, row, lost),
        "command": row.command,
        "photos": photos,
    }


def _weight(view: View, row: WasteWithoutBatchRow, lost: Quantity) -> dict[str, str] | None:
    """What it weighs, where it was weighed or the item says; of plates nobody knows."""
    of = view.items.get(row.item or "")
    if of is not None and of.base_unit is lost.unit:
        return weight(lost.thousandths, of)
    return weight(lost.thousandths, Item("", row.what, lost.unit, density=None))
