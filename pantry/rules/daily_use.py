"""What the house uses every day whatever the menu: milk, coffee, butter (RQ5)."""

from collections.abc import Mapping
from datetime import date, time
from zoneinfo import ZoneInfo

from pantry.rules.allocation import Need
from pantry.rules.house_time import days_of, end_of_day, instant_of
from pantry.rules.recipes import piece_of
from pantry.rules.stock import Item

_DAY_BEGINS = time(6)  # before the first breakfast: common practice, no source
_AFTER_EVERY_TABLE = 1_000_000


def daily_needs(
    items: Mapping[str, Item],
    people: int,
    first_day: date,
    last_day: date,
    zone: ZoneInfo,
    known: Mapping[date, int] = {},
) -> list[Need]:
    """One need for each item with a daily use and each day, wanted at 06:00, usable all day.

    A whole item is not cut anew every morning: the pieces due by the end of each day are counted
    on from a fixed day long ago, so that a quarter of a lemon a day is a lemon every fourth day,
    the same one on whatever day it is asked.

    Args:
        items: by item id.
        people: how many are in the house as a rule.
        first_day: of those asked for, inclusive.
        last_day: inclusive.
        zone: the house's.
        known: how many are in it on days of which that is known otherwise.

    Raises:
        MissingFact: `piece_unknown`.
    """
    used = [item for item in items.values() if item.measured and item.daily_per_head > 0]
    needs = []
    for day in days_of(first_day, last_day):
        heads = known.get(day, people)
        wanted_by, until = instant_of(day, _DAY_BEGINS, zone), end_of_day(day, zone)
        for item in used:
            quantity = _on(day, item.daily_per_head * heads, piece_of(item))
            id_ = f"daily|{item.id}|{day}"
            needs.append(Need(id_, "", "", item.id, quantity, wanted_by, until, _AFTER_EVERY_TABLE))
    return [need for need in needs if need.quantity]


def _on(day: date, daily: int, piece: int) -> int:
    """What a day uses: the daily amount, or the pieces begun since the day before."""
    if not piece:
        return daily
    begun, before = (
        -(-daily * number // piece) for number in (day.toordinal(), day.toordinal() - 1)
    )
    return (begun - before) * piece
