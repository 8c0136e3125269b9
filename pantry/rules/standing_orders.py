"""Standing orders: what a supplier brings of itself, and when it has to be told to bring nothing.

Milk, bread and papers are agreed once and then come until somebody says otherwise. What is
forgotten is to say so when the house empties: then there is a deadline like that of an order.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from pantry.rules.deliveries import Delivery, calendar_of
from pantry.rules.supply import Supplier

LOOK_AHEAD = timedelta(days=28)
"""So far ahead orders are written, and it is looked whether the house is empty."""

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Brought:
    """A delivery that comes of itself; `on` is the day of the supplier's week it stands for."""

    on: date
    delivery: Delivery


@dataclass(frozen=True, slots=True)
class EmptyHouse:
    """Nobody is in the house from one day to another, both included."""

    first: date
    last: date


def brought(
    supplier: Supplier, weekdays: frozenset[int], first: datetime, last: datetime, zone: ZoneInfo
) -> Iterator[Brought]:
    """What comes of a standing order from `first` to `last`, by its days, one delivery a day.

    A delivery that moved comes on the day it moved to; one that falls away brings nothing.
    """
    seen: set[date] = set()
    for planned in calendar_of(supplier, first, last, zone):
        found = planned.delivery
        if found is None or planned.on.weekday() not in weekdays or planned.on in seen:
            continue
        if first <= found.at <= last:
            seen.add(planned.on)
            yield Brought(planned.on, found)


def comes_to_nobody(
    day: date, until: date, people_on: Callable[[date], int], today: date
) -> EmptyHouse | None:
    """The days without anybody in the house, where what comes on `day` would be for nobody.

    It is for nobody where nobody is in the house on that day nor on any other before `until`, when
    it comes next. Whoever is there for a part of a day is there.

    Args:
        day: the day on which it comes, in the house.
        until: the day of the next delivery.
        people_on: how many are in the house on a day.
        today: the days that are told begin no earlier.
    """
    if any(people_on(each) for each in _days(day, max(until, day + _DAY))):
        return None
    first, last = day, max(until - _DAY, day)
    while first > today and not people_on(first - _DAY):
        first -= _DAY
    while last - day < LOOK_AHEAD and not people_on(last + _DAY):
        last += _DAY
    return EmptyHouse(first, last)


def _days(first: date, until: date) -> Iterator[date]:
    while first < until:
        yield first
        first += _DAY
