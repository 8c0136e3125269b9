"""Floor and order-up-to level of what is kept in, as proposals that order nothing (PL6)."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise
from math import ceil, inf

from pantry.rules.demand import deviation_of_use, rate_of_use, reorder_point, review_level
from pantry.rules.notice import regular_deliveries
from pantry.rules.supply import Pack, Supplier

SERVICE_LEVEL = 0.95
"""The chance that what is kept in lasts until the next goods, where the house chose none."""

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Replenishment:
    """How often an item can be ordered and how long it takes to come, in the regular week.

    Attributes:
        review: the longest time between two deliveries.
        lead: the longest time from noticing that the stock is under the floor until goods are in:
            an order-by has just passed, the next one has to be waited for, and of a supplier who
            may fail the next delivery fails.
        life_days: life on arrival, the day of arrival being day 1; None: no limit.
    """

    review: timedelta
    lead: timedelta
    life_days: int | None


@dataclass(frozen=True, slots=True)
class Levels:
    """Proposed par of one item, in whole thousandths of its base unit, rounded up."""

    floor: int
    order_up_to: int


def replenishment(
    item: str, packs: Iterable[Pack], suppliers: Iterable[Supplier]
) -> Replenishment | None:
    """How the item can be had most quickly and often; None: nobody sells it."""
    by_id = {supplier.id: supplier for supplier in suppliers}
    found = [
        Replenishment(*_rhythm(by_id[pack.supplier]), pack.life_on_arrival_days)
        for pack in packs
        if pack.item == item and by_id[pack.supplier].rules
    ]
    return min(found, key=_slowness, default=None)


def proposed_levels(
    series: Sequence[int],
    replenished: Replenishment | None,
    largest_need: int,
    service_level: float = SERVICE_LEVEL,
) -> Levels:
    """Propose a floor and an order-up-to level from use so far and the approved dishes (PL6).

    The floor is the reorder point over `lead`; the level covers `review + lead` (periodic
    review). No stock covers more days than it lives, so both end with the life on arrival. The
    floor is never less than the largest single need: below it that dish cannot be chosen. Where
    nothing was used yet, or nobody sells the item, that need is all there is to go by.

    Args:
        series: use on each local day without gaps, the oldest first, in thousandths.
        replenished: how it can be had; None: nobody sells it.
        largest_need: what one service of an approved dish needs at most, in thousandths.
        service_level: the chance, over 0 and under 1, that it lasts until the next goods.
    """
    if replenished is None:
        return Levels(largest_need, largest_need)
    rate, deviation = rate_of_use(series), deviation_of_use(series)
    lead, review = _days_covered(replenished)
    floor = max(largest_need, _up(reorder_point(rate, deviation, lead, service_level)))
    level = _up(review_level(rate, deviation, review, lead, service_level))
    return Levels(floor, max(floor, level))


def _slowness(replenished: Replenishment) -> tuple[timedelta, float]:
    """How long stock has to last, then how soon it dies."""
    life = inf if replenished.life_days is None else replenished.life_days
    return replenished.review + replenished.lead, -life


def _days_covered(replenished: Replenishment) -> tuple[float, float]:
    """Lead and review in days, cut where the life on arrival ends."""
    lead, review = replenished.lead / _DAY, replenished.review / _DAY
    if replenished.life_days is None:
        return lead, review
    lead = min(lead, replenished.life_days)
    return lead, min(review, replenished.life_days - lead)


def _up(level: float) -> int:
    """Rounded up to whole thousandths; a millionth of one is dust of the floats."""
    return ceil(round(level, 6))


def _rhythm(supplier: Supplier) -> tuple[timedelta, timedelta]:
    """The longest time between two deliveries, and the longest from noticing to goods in."""
    weeks = max(rule.cutoff_days_before for rule in supplier.rules) // 7 + 2
    around = regular_deliveries(supplier, weeks, weeks + 2)
    arrivals = [delivery.at for delivery in around]
    review = max(later - earlier for earlier, later in pairwise(arrivals))
    return review, max(_waits(supplier, weeks))


def _waits(supplier: Supplier, weeks: int) -> Iterator[timedelta]:
    """For every order-by of the regular week: how long goods take if it has just passed."""
    around = regular_deliveries(supplier, weeks, weeks + 2)
    for missed in regular_deliveries(supplier, 0, 1):
        later = sorted(d.at for d in around if d.order_by > missed.order_by)
        yield later[1 if supplier.may_fail else 0] - missed.order_by
