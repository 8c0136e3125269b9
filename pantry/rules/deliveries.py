"""Supplier calendars: what comes when, and by when it has to be ordered (PL2)."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from pantry.refusals import UnreadableInput, declare
from pantry.rules.closed_days import ClosedDays, closed_days
from pantry.rules.house_time import days_of, instant_of, local_date, write_instant
from pantry.rules.supply import Closure, DeliveryRule, Supplier

CUTOFF_AFTER_DELIVERY = declare(
    "cutoff_after_delivery", "A delivery's cut-off is later than the delivery itself."
)

CLOSURE_ENDS_FIRST = declare(
    "closure_ends_first", "A closure ends before it begins, or goes on for more than a year."
)

_LONGEST_CLOSURE = timedelta(days=366)
_DAY = timedelta(days=1)
_LOOK_BACK = timedelta(days=35)
"""How far before now a calendar begins, so that a delivery just missed can still be named."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """One delivery to come, or that came.

    Attributes:
        id: `SUPPLIER/INSTANT`, the instant it is in the house, RFC 3339 in UTC.
        at: when the goods are in the house.
        cutoff: the last instant at which the supplier takes an order for it.
        order_by: the cut-off less the time somebody needs to send the order (PL5).
    """

    id: str
    supplier: str
    at: datetime
    cutoff: datetime
    order_by: datetime


@dataclass(frozen=True, slots=True)
class PlannedDelivery:
    """A delivery of the supplier's week on one date, and what became of it.

    Attributes:
        on: the date it would come on.
        delivery: as it comes; None: it falls away.
        cutoff_moved_from: the date its cut-off would be on, where that takes no orders.
    """

    rule: DeliveryRule
    on: date
    delivery: Delivery | None
    cutoff_moved_from: date | None


def coming(
    supplier: Supplier, first: datetime, last: datetime, zone: ZoneInfo
) -> tuple[Delivery, ...]:
    """The supplier's deliveries from `first` to `last`, both inclusive, in time order (PL2).

    Times are wall times of the supplier's zone, or else the house's, so that a cut-off at 22:00
    stays at 22:00 over a clock change. A delivery on a closed day comes on another at the same wall
    time, or not at all; its cut-off then counts days back from the new date. A cut-off on a date
    without orders moves to the same wall time on `instead`, or to the last day before on which
    orders are taken. Two that fall on one instant are one delivery, with the later cut-off.
    """
    found: dict[datetime, Delivery] = {}
    for planned in calendar_of(supplier, first, last, zone):
        delivery = planned.delivery
        if delivery is None or not first <= delivery.at <= last:
            continue
        known = found.get(delivery.at)
        if not known or known.cutoff < delivery.cutoff:
            found[delivery.at] = delivery
    return tuple(found[at] for at in sorted(found))


def calendar_of(
    supplier: Supplier, first: datetime, last: datetime, zone: ZoneInfo
) -> Iterator[PlannedDelivery]:
    """Every delivery of the supplier's weeks around two instants, and what became of it (PL2)."""
    place = supplier.zone or zone
    start, end = local_date(first, place), local_date(last, place)
    closed = closed_days(supplier, start, end)
    days = {*days_of(start, end), *closed.no_delivery}
    rules: dict[int, list[DeliveryRule]] = {}
    for rule in supplier.rules:
        rules.setdefault(rule.weekday, []).append(rule)
    for day in sorted(days):
        for rule in rules.get(day.weekday(), ()):
            yield _planned(supplier, rule, day, closed, place)


def refuse_late_cutoff(rule: DeliveryRule) -> None:
    """Refuse a delivery that could still be ordered when it has come (PL2).

    Raises:
        UnreadableInput: `cutoff_after_delivery`.
    """
    if rule.cutoff_days_before == 0 and rule.cutoff_at > rule.at:
        raise UnreadableInput(
            CUTOFF_AFTER_DELIVERY,
            f"The cut-off is at {rule.cutoff_at:%H:%M} on the day of the delivery, which comes at "
            f"{rule.at:%H:%M}.",
            "Give an earlier cut-off, or how many days before the delivery it is.",
            value=f"{rule.cutoff_at:%H:%M}",
        )


def refuse_endless(closure: Closure) -> None:
    """Refuse a closure that ends before it begins, or never (PL2).

    Raises:
        UnreadableInput: `closure_ends_first`.
    """
    until = closure.until
    if until is not None and not closure.on <= until <= closure.on + _LONGEST_CLOSURE:
        raise UnreadableInput(
            CLOSURE_ENDS_FIRST,
            f"{until} is no last day of a closure from {closure.on}.",
            "Give a last day on or after the first, within a year.",
            value=str(until),
        )


class Calendar:
    """Every supplier's deliveries around a horizon, found by bisection.

    It reaches from five weeks before `now` to `last`.
    """

    __slots__ = (
        "_arrivals",
        "_by_id",
        "_days",
        "_latest_cutoff",
        "_open",
        "deliveries",
        "now",
        "zone",
    )

    def __init__(
        self, suppliers: Iterable[Supplier], zone: ZoneInfo, now: datetime, last: datetime
    ) -> None:
        self.zone = zone
        self.now = now
        self.deliveries: dict[str, tuple[Delivery, ...]] = {
            supplier.id: coming(supplier, now - _LOOK_BACK, last, zone) for supplier in suppliers
        }
        self._arrivals = {id_: [d.at for d in found] for id_, found in self.deliveries.items()}
        self._days = {
            id_: [local_date(at, zone) for at in arrivals]
            for id_, arrivals in self._arrivals.items()
        }
        self._latest_cutoff = {id_: _running_latest(d) for id_, d in self.deliveries.items()}
        self._open = {
            id_: [n for n, d in enumerate(each) if d.order_by >= now]
            for id_, each in self.deliveries.items()
        }
        self._by_id = {d.id: d for found in self.deliveries.values() for d in found}

    def named(self, id_: str) -> Delivery | None:
        """The delivery of that id; None where the calendar does not reach it."""
        return self._by_id.get(id_)

    def count_by(self, supplier: str, last: datetime) -> int:
        """How many of the supplier's deliveries arrive by an instant."""
        return bisect_right(self._arrivals[supplier], last)

    def count_before(self, supplier: str, first: date) -> int:
        """How many of the supplier's deliveries arrive before a date."""
        return bisect_left(self._days[supplier], first)

    def open_in(self, supplier: str, window: range) -> tuple[Delivery, ...]:
        """The deliveries of the window that can still be ordered now, in the order of time."""
        places = self._open[supplier]
        first, stop = (bisect_left(places, n) for n in (window.start, window.stop))
        return tuple(self.deliveries[supplier][n] for n in places[first:stop])

    def next_open(self, supplier: str, since: datetime) -> Delivery | None:
        """The earliest delivery from this instant on that can still be ordered now."""
        places = self._open[supplier]
        first = bisect_left(places, bisect_left(self._arrivals[supplier], since))
        return self.deliveries[supplier][places[first]] if first < len(places) else None

    def last_cutoff(self, supplier: str, window: range) -> Delivery | None:
        """The delivery of the window that can, or could, be ordered latest; now plays no part."""
        if not window:
            return None
        found = self.deliveries[supplier]
        best = self._latest_cutoff[supplier][window[-1]]
        if best >= window[0]:
            return found[best]
        return max((found[n] for n in window), key=lambda d: (d.order_by, d.at))


def _running_latest(found: Sequence[Delivery]) -> list[int]:
    """For every delivery, which one up to it can be ordered latest."""
    best: list[int] = []
    for n, delivery in enumerate(found):
        later = not best or delivery.order_by >= found[best[-1]].order_by
        best.append(n if later else best[-1])
    return best


def _arrival_date(day: date, no_delivery: Mapping[date, date | None]) -> date | None:
    """The date on which that day's delivery comes; None where it does not come at all."""
    seen: set[date] = set()
    while day in no_delivery:
        seen.add(day)
        instead = no_delivery[day]
        if instead is None or instead in seen:
            return None
        day = instead
    return day


def _cutoff_date(rule: DeliveryRule, arrival: date, no_orders: Mapping[date, date | None]) -> date:
    """The date of a rule's cut-off; a move to after the delivery is no move."""
    day = arrival - rule.cutoff_days_before * _DAY
    last = arrival if rule.cutoff_at <= rule.at else arrival - _DAY
    seen: set[date] = set()
    while day in no_orders:
        seen.add(day)
        instead = no_orders[day]
        usable = instead is not None and instead not in seen and instead <= last
        day = instead if instead is not None and usable else day - _DAY
    return day


def _planned(
    supplier: Supplier, rule: DeliveryRule, day: date, closed: ClosedDays, zone: ZoneInfo
) -> PlannedDelivery:
    arrival = _arrival_date(day, closed.no_delivery)
    if arrival is None:
        return PlannedDelivery(rule, day, None, None)
    usual = arrival - rule.cutoff_days_before * _DAY
    ordered = _cutoff_date(rule, arrival, closed.no_orders)
    at = instant_of(arrival, rule.at, zone)
    cutoff = instant_of(ordered, rule.cutoff_at, zone)
    delivery = Delivery(
        f"{supplier.id}/{write_instant(at)}", supplier.id, at, cutoff, cutoff - supplier.send
    )
    return PlannedDelivery(rule, day, delivery, None if ordered == usual else usual)
