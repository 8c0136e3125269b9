"""Bought in or kept in: is the notice long enough to buy an item after the choice (PL6)?

All of it is worked out on a *regular week*: the suppliers' deliveries without closures, in wall
times of the house, as though no clock ever changed. The answer so belongs to no date, and two
houses with the same suppliers and the same notice get the same one. Where a supplier's times are
those of another zone, the two clocks differ by whatever they differ by in the year ahead, and the
answer is the one that is right throughout it.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple
from zoneinfo import ZoneInfo

from pantry.rules.deliveries import Delivery, coming
from pantry.rules.house_time import Span, before, instant_of
from pantry.rules.menu import Service
from pantry.rules.supply import House, Pack, Supplier

WALL = ZoneInfo("UTC")
"""The zone in which the regular week is worked out: one whose clock never changes."""

_DAY = timedelta(days=1)
_YEAR = 366
_MONDAY = date(2001, 1, 1)
"""Any Monday; no figure depends on which."""
_MONDAY_BEGINS = datetime(2001, 1, 1, tzinfo=UTC)


class Verdict(StrEnum):
    """Whether an item can be bought once the menu is confirmed."""

    BOUGHT_IN = "bought_in"
    KEPT_IN = "kept_in"


class ServedMeal(NamedTuple):
    """A meal that the house serves; `weekday` 0 is Monday, `at` is local wall time."""

    weekday: int
    meal: str
    at: time


@dataclass(frozen=True, slots=True)
class TooLate:
    """A meal for which the notice is not long enough.

    Attributes:
        by: how much longer the notice would have to be; None: no notice would do.
    """

    weekday: int
    meal: str
    by: timedelta | None


@dataclass(frozen=True, slots=True)
class Notice:
    """The answer for one item (PL6).

    Attributes:
        needed: the longest notice that a meal needs; None: for no meal would any notice do.
        fails: the meals that make it *kept in*, in the order they were given, each once.
    """

    item: str
    needed: timedelta | None
    verdict: Verdict
    fails: tuple[TooLate, ...]

    @property
    def enough(self) -> timedelta | None:
        """The least notice with which it is bought in; None: no notice would do."""
        return None if any(fail.by is None for fail in self.fails) else self.needed


def served_meals(services: Iterable[Service], zone: ZoneInfo) -> tuple[ServedMeal, ...]:
    """The different weekdays, meals and wall times among these services, in the week's order.

    A meal served at several times is in it once for each: an earlier time may miss a delivery,
    a later one is further from the same cut-off, so that either may need the longer notice.
    """
    walls = ((service, service.at.astimezone(zone)) for service in services)
    found = {
        ServedMeal(wall.weekday(), service.meal, wall.time().replace(fold=0))
        for service, wall in walls
    }
    return tuple(sorted(found, key=lambda meal: (meal.weekday, meal.at, meal.meal)))


def notice(
    item: str,
    packs: Iterable[Pack],
    suppliers: Iterable[Supplier],
    served: Iterable[ServedMeal],
    *,
    lead: Span,
    house: House,
    now: datetime,
) -> Notice:
    """Whether the house's notice is long enough to buy the item for every meal it serves (PL6).

    The notice that a meal needs is its time less the latest cut-off of a delivery that is in the
    house by *wanted by* less the receiving margin (of a supplier who may fail: one delivery
    earlier) and that is alive through the meal; over all who sell the item, the least.

    Args:
        item: its id.
        packs: of any item; only this item's count.
        suppliers: all who sell one of those packs.
        served: every meal that the house serves in a week.
        lead: the longest lead time among the approved recipes that use the item, through the
            preparations in between. A longer lead never needs a shorter notice.
        house: its notice period, receiving margin and zone.
        now: the present, from which on a supplier's clock is compared with the house's.
    """
    sold = _sold(item, packs, suppliers, ZoneInfo(house.zone), now)
    needed = {meal: _needed(meal, sold, lead, house) for meal in served}
    fails: dict[tuple[int, str], TooLate] = {}
    for meal, notice_needed in needed.items():
        too_late = _too_late(meal, notice_needed, house)
        if too_late is not None:
            key = (meal.weekday, meal.meal)
            fails[key] = max(too_late, fails.get(key, too_late), key=_hardness)
    return Notice(
        item,
        max((length for length in needed.values() if length is not None), default=None),
        Verdict.KEPT_IN if fails or not sold else Verdict.BOUGHT_IN,
        tuple(fails.values()),
    )


def who_would_do(
    item: str,
    packs: Iterable[Pack],
    suppliers: Iterable[Supplier],
    served: Iterable[ServedMeal],
    *,
    lead: Span,
    house: House,
    now: datetime,
) -> tuple[str, ...]:
    """Those who do not sell the item, and with whom as well it would be bought in (PL6).

    They are taken to bring it with as long a life as the best of those who sell it; of what nobody
    sells, with one without end.

    Args:
        item: its id.
        packs: of any item; only this item's count.
        suppliers: all of the house.
        served: every meal that the house serves in a week.
        lead: as of `notice`.
        house: its notice period, receiving margin and zone.
        now: as of `notice`.
    """
    zone = ZoneInfo(house.zone)
    of_item = [pack for pack in packs if pack.item == item]
    sellers = {pack.supplier for pack in of_item}
    known = {supplier.id: supplier for supplier in suppliers}
    sold = _sold(item, of_item, (known[id_] for id_ in sellers), zone, now)
    lives = [pack.life_on_arrival_days for pack in of_item]
    life = None if None in lives else max((days for days in lives if days), default=None)
    missed = [meal for meal in served if _too_late(meal, _needed(meal, sold, lead, house), house)]

    def would_do(other: Supplier) -> bool:
        one = (_Sold(other, life, clock_ahead(other.zone or zone, zone, now)),)
        return not any(_too_late(meal, _needed(meal, one, lead, house), house) for meal in missed)

    others = (other for id_, other in known.items() if id_ not in sellers)
    return tuple(other.id for other in others if would_do(other)) if missed else ()


def longest(needed: Iterable[timedelta | None]) -> timedelta | None:
    """What notice the menu really needs, so that all that any notice can buy is bought in (PL6).

    None: there is nothing in it that a notice could buy.

    Args:
        needed: by each item; None: no notice can buy it.
    """
    return max((length for length in needed if length is not None), default=None)


@dataclass(frozen=True, slots=True)
class _Sold:
    """Who sells the item, how long it lives on arrival, and by how much their clock is ahead."""

    supplier: Supplier
    life: int | None
    ahead: frozenset[timedelta]


def _sold(
    item: str,
    packs: Iterable[Pack],
    suppliers: Iterable[Supplier],
    zone: ZoneInfo,
    now: datetime,
) -> tuple[_Sold, ...]:
    """Who sells the item, with each different life on arrival."""
    by_id = {supplier.id: supplier for supplier in suppliers}
    lives = {(p.supplier, p.life_on_arrival_days): None for p in packs if p.item == item}
    return tuple(
        _Sold(by_id[id_], life, clock_ahead(by_id[id_].zone or zone, zone, now))
        for id_, life in lives
    )


def clock_ahead(of: ZoneInfo, zone: ZoneInfo, now: datetime) -> frozenset[timedelta]:
    """By how much a zone's wall clock is ahead of another's, day by day in the year from now on."""
    if of == zone:
        return frozenset({timedelta(0)})
    days = (now + day * _DAY for day in range(_YEAR))
    return frozenset(_offset(day, of) - _offset(day, zone) for day in days)


def _offset(at: datetime, zone: ZoneInfo) -> timedelta:
    return at.astimezone(zone).utcoffset() or timedelta(0)


def _needed(meal: ServedMeal, sold: Iterable[_Sold], lead: Span, house: House) -> timedelta | None:
    """The least notice over all who sell it; None: no delivery would do."""
    service = _instant(meal)
    in_by = before(before(service, lead, WALL), house.receiving_margin, WALL)
    lengths = (_longest_of(each, in_by, service) for each in sold)
    return min((length for length in lengths if length is not None), default=None)


def _longest_of(sold: _Sold, in_by: datetime, service: datetime) -> timedelta | None:
    """The notice that is enough whatever the clocks differ by; None: at some time none is."""
    found: list[timedelta] = []
    for ahead in sold.ahead:
        cutoff = _latest_cutoff(sold, ahead, in_by, service)
        if cutoff is None:
            return None
        found.append(service - cutoff)
    return max(found)


def _latest_cutoff(
    sold: _Sold, ahead: timedelta, in_by: datetime, service: datetime
) -> datetime | None:
    """The supplier's latest cut-off whose delivery is in by then and alive through the service."""
    weeks_before = max(0, (_MONDAY_BEGINS - in_by) // (7 * _DAY) + 1)
    regular = regular_deliveries(sold.supplier, weeks_before + 2, 1)
    in_time = [delivery for delivery in regular if delivery.at - ahead <= in_by]
    planned = in_time[:-1] if sold.supplier.may_fail else in_time
    oldest = None if sold.life is None else service.date() - (sold.life - 1) * _DAY
    alive = (d for d in planned if oldest is None or (d.at - ahead).date() >= oldest)
    return max((d.cutoff - ahead for d in alive), default=None)


def _too_late(meal: ServedMeal, needed: timedelta | None, house: House) -> TooLate | None:
    """That the notice is too short for this meal, and by how much; None: it is long enough."""
    service = _instant(meal)
    given = service - before(service, house.notice, WALL)
    if needed is None:
        return TooLate(meal.weekday, meal.meal, None)
    return TooLate(meal.weekday, meal.meal, needed - given) if needed > given else None


def _hardness(too_late: TooLate) -> timedelta:
    return timedelta.max if too_late.by is None else too_late.by


def _instant(meal: ServedMeal) -> datetime:
    return instant_of(_MONDAY + meal.weekday * _DAY, meal.at, WALL)


@lru_cache(maxsize=1024)
def regular_deliveries(
    supplier: Supplier, weeks_before: int, weeks_after: int
) -> tuple[Delivery, ...]:
    """The supplier's deliveries without closures, around the beginning of the regular week.

    Their instants are wall times of the supplier's zone, with the offset of UTC.
    """
    first = _MONDAY_BEGINS - weeks_before * 7 * _DAY
    last = _MONDAY_BEGINS + weeks_after * 7 * _DAY - timedelta(seconds=1)
    return coming(replace(supplier, closures=(), holidays=None, zone=None), first, last, WALL)
