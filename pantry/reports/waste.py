"""What was lost, week by week: why, of what, from where, where it went, what it had cost."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from pantry.handbook.waste_reasons import is_avoidable
from pantry.records import accounts, pictures
from pantry.records.read.waste import Lost, covers_by_day, lost
from pantry.reports.days_asked import day_asked, days_asked
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View
from pantry.rules.house_time import end_of_day, local_date, start_of_day
from pantry.rules.measure import Quantity
from pantry.rules.stock import BaseUnit, Item

WEEKS = 12
"""How many weeks are told where nobody says which, this one being the last."""


def waste(view: View, first: str | None = None, last: str | None = None) -> list[Row]:
    """A row for each week, reason, item, place and destination; the oldest week first.

    What was taken back is not in it.

    Args:
        view: the house.
        first: the first day, a civil date of the house; None: twelve weeks of which this is one.
        last: the last day; None: today.

    Raises:
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    days = days_of_waste(view, first, last)
    begins, ends = start_of_day(days[0], view.zone), end_of_day(days[1], view.zone)
    found: dict[_Key, list[Lost]] = {}
    for part in lost(view.connection, view.id, begins, ends + timedelta(seconds=1)):
        found.setdefault(_key(view, part), []).append(part)
    covers = _covers(view, *days)
    named = _photos(view, found)
    rows = [_row(view, key, parts, covers, named) for key, parts in found.items()]
    return sorted(
        rows, key=lambda row: (row["monday"], row["item"], row["reason"], row["destination"])
    )


def days_of_waste(view: View, first: str | None, last: str | None) -> tuple[date, date]:
    """The first and the last day that a report on what was lost is about.

    Raises:
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    today = local_date(view.now, view.zone)
    until = day_asked(last, "to") if last else today
    return days_asked(first, last, (monday_of(until) - timedelta(weeks=WEEKS - 1), today))


def monday_of(day: date) -> date:
    """The Monday of the week of a day (ISO 8601)."""
    return day - timedelta(days=day.weekday())


@dataclass(frozen=True, slots=True)
class _Key:
    """What the parts of one row have in common."""

    monday: date
    item: str
    reason: str
    area: str | None
    destination: str


def _key(view: View, part: Lost) -> _Key:
    source = part.movement.source
    is_kitchen = accounts.kind(source) == "kitchen"
    return _Key(
        monday_of(local_date(part.movement.at, view.zone)),
        part.batch.item,
        part.movement.reason or "",
        None if is_kitchen else accounts.place(source),
        part.movement.destination or "",
    )


def _covers(view: View, first: date, last: date) -> Mapping[date, int]:
    """By Monday, the covers served in that week: of whole weeks, whichever day was asked for."""
    end = monday_of(last) + timedelta(days=6)
    found: dict[date, int] = {}
    by_day = covers_by_day(view.connection, view.id, monday_of(first), end)
    for day, covers in by_day.items():
        found[monday_of(day)] = found.get(monday_of(day), 0) + covers
    return found


def _photos(view: View, found: Mapping[_Key, list[Lost]]) -> Mapping[str, list[str]]:
    commands = {part.movement.command for parts in found.values() for part in parts}
    return pictures.named_by_each(view.connection, view.id, sorted(commands))


def _row(
    view: View,
    key: _Key,
    parts: list[Lost],
    covers: Mapping[date, int],
    named: Mapping[str, list[str]],
) -> Row:
    item = view.items[key.item]
    quantity = sum(part.movement.quantity for part in parts)
    year, week, _ = key.monday.isocalendar()
    return {
        "week": f"{year}-W{week:02}",
        "monday": key.monday.isoformat(),
        "reason": key.reason,
        "avoidable": is_avoidable(key.reason),
        "item": item.name,
        "item_id": item.id,
        "area": None if key.area is None else view.areas.get(key.area, key.area),
        "destination": key.destination,
        "quantity": amount(quantity, item),
        "weight": weight(quantity, item),
        "value": money(sum(part.cost for part in parts), view),
        "times": len(parts),
        "covers": covers.get(key.monday, 0),
        "parts": [
            {
                "command": part.movement.command,
                "at": instant(part.movement.at),
                "batch": part.batch.id,
                "label": part.batch.label,
                "quantity": amount(part.movement.quantity, item),
                "value": money(part.cost, view),
                "photos": named.get(part.movement.command, []),
            }
            for part in parts
        ],
    }


def weight(thousandths: int, item: Item) -> dict[str, str] | None:
    """What so much of an item weighs, to the milligram below; None where nobody knows."""
    per_base = {
        BaseUnit.G: Fraction(1),
        BaseUnit.ML: item.density,
        BaseUnit.EACH: item.piece_weight,
    }[item.base_unit]
    if per_base is None:
        return None
    return Quantity(int(thousandths * per_base), BaseUnit.G).as_json()
