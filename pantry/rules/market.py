"""What can be bought of an item, from whom, and until when it can be ordered (PL3, PL5)."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import NamedTuple, TypeAlias
from zoneinfo import ZoneInfo

from pantry.rules.deliveries import Calendar, Delivery
from pantry.rules.house_time import Span, before, end_of_day, last_day, local_date
from pantry.rules.supply import Pack, Supplier


@dataclass(frozen=True, slots=True)
class Offer:
    """One pack on one delivery.

    Attributes:
        usable_until: the last instant it may be used, from its life on arrival; None: no limit.
        at_risk: the supplier may fail, and no later delivery of theirs would still be in time.
    """

    pack: Pack
    delivery: Delivery
    usable_until: datetime | None
    at_risk: bool = False


class Reach(NamedTuple):
    """The deliveries of a supplier that would do for a need, as seen at one instant.

    Attributes:
        open: those that can be ordered still, up to the latest that is planned with.
        at_risk: the supplier may fail, and no later delivery of theirs would still be in time.
        last_planned: of all that would do, without the delivery kept in reserve for one that fails,
            the one that can, or could, be ordered latest.
        is_last_at_risk: whether there was none to keep in reserve.
    """

    open: tuple[Delivery, ...]
    at_risk: bool
    last_planned: Delivery | None
    is_last_at_risk: bool


_Asked: TypeAlias = tuple[str, int | None, datetime, datetime]
"""Supplier, life on arrival, wanted by and until: what the answer hangs on, whatever the pack."""


class Market:
    """Suppliers, their packs and their deliveries around a horizon, as seen at one instant.

    An item without a pack is never refused: nobody sells it, so nothing is offered.
    """

    __slots__ = (
        "_cutoffs",
        "_ends",
        "_packs",
        "_reached",
        "_starts",
        "_stops",
        "calendar",
        "margin",
        "suppliers",
    )

    def __init__(
        self,
        suppliers: Iterable[Supplier],
        packs: Iterable[Pack],
        *,
        margin: Span,
        zone: ZoneInfo,
        now: datetime,
        last: datetime,
    ) -> None:
        """Compute the calendars up to `last`; `margin` is the house's receiving margin."""
        self.suppliers = {supplier.id: supplier for supplier in suppliers}
        self.margin = margin
        self.calendar = Calendar(self.suppliers.values(), zone, now, last)
        self._packs: dict[str, list[Pack]] = {}
        for pack in sorted(packs, key=lambda pack: (pack.item, pack.supplier, pack.id)):
            self._packs.setdefault(pack.item, []).append(pack)
        self._reached: dict[_Asked, Reach] = {}
        self._cutoffs: dict[tuple[str, int | None, datetime, datetime, bool], datetime | None] = {}
        self._stops: dict[tuple[str, datetime], int] = {}
        self._starts: dict[tuple[str, int, datetime], int] = {}
        self._ends: dict[tuple[datetime, int], datetime] = {}

    def packs(self, item: str) -> tuple[Pack, ...]:
        """The packs the item is sold in, by supplier and id."""
        return tuple(self._packs.get(item, ()))

    def offer(self, pack: Pack, delivery: Delivery, *, at_risk: bool = False) -> Offer:
        """That pack on that delivery, with the last instant its life on arrival gives it."""
        life = pack.life_on_arrival_days
        if life is None:
            return Offer(pack, delivery, None, at_risk)
        key = (delivery.at, life)
        if key not in self._ends:
            zone = self.calendar.zone
            self._ends[key] = end_of_day(last_day(local_date(delivery.at, zone), life), zone)
        return Offer(pack, delivery, self._ends[key], at_risk)

    def offers(self, item: str, wanted_by: datetime, until: datetime) -> tuple[Offer, ...]:
        """For every pack of the item its latest delivery that still can be ordered (PL3).

        In the house before `wanted_by` less the receiving margin, alive through `until`. Of a
        supplier who may fail, one delivery earlier; where that one would not do, the latest, at
        risk.
        """
        found: list[Offer] = []
        for pack in self._packs.get(item, ()):
            reach = self.reach(pack, wanted_by, until)
            if reach.open:
                found.append(self.offer(pack, reach.open[-1], at_risk=reach.at_risk))
        return tuple(found)

    def latest(self, item: str, wanted_by: datetime, until: datetime) -> Delivery | None:
        """The latest delivery of all that `offers` names."""
        reached = (self.reach(pack, wanted_by, until) for pack in self._packs.get(item, ()))
        found = (reach.open[-1] for reach in reached if reach.open)
        return max(found, key=lambda delivery: delivery.at, default=None)

    def next_offers(self, item: str, since: datetime) -> tuple[Offer, ...]:
        """For every pack of the item its first delivery from `since` on that can be ordered."""
        found = (
            (pack, self.calendar.next_open(pack.supplier, since))
            for pack in self._packs.get(item, ())
        )
        return tuple(self.offer(pack, delivery) for pack, delivery in found if delivery)

    def last_offer(self, item: str, wanted_by: datetime, until: datetime) -> Offer | None:
        """The offer that can, or could, be ordered latest of all, whatever the time is now."""
        offers: list[Offer] = []
        for pack in self._packs.get(item, ()):
            reach = self.reach(pack, wanted_by, until)
            if reach.last_planned is not None:
                offers.append(self.offer(pack, reach.last_planned, at_risk=reach.is_last_at_risk))
        return max(offers, key=lambda offer: offer.delivery.order_by, default=None)

    def last_order_by(self, item: str, wanted_by: datetime, until: datetime) -> datetime | None:
        """The last possible order-by for it, whatever the time is now; None: not to be bought."""
        return self._last_cutoff(item, wanted_by, until, reserve=False)

    def last_chance(self, item: str, wanted_by: datetime, until: datetime) -> datetime | None:
        """As `last_order_by`, with the delivery that is kept in reserve for one that fails."""
        return self._last_cutoff(item, wanted_by, until, reserve=True)

    def _last_cutoff(
        self, item: str, wanted_by: datetime, until: datetime, *, reserve: bool
    ) -> datetime | None:
        last: datetime | None = None
        for pack in self._packs.get(item, ()):
            asked = (pack.supplier, pack.life_on_arrival_days, wanted_by, until, reserve)
            if asked not in self._cutoffs:
                self._cutoffs[asked] = self._cutoff(pack, wanted_by, until, reserve=reserve)
            found = self._cutoffs[asked]
            if found is not None and (last is None or last < found):
                last = found
        return last

    def _cutoff(
        self, pack: Pack, wanted_by: datetime, until: datetime, *, reserve: bool
    ) -> datetime | None:
        window = self._window(pack, wanted_by, until)
        if not reserve:
            window, _ = self._planned(pack, window)
        delivery = self.calendar.last_cutoff(pack.supplier, window)
        return delivery.order_by if delivery else None

    def reach(self, pack: Pack, wanted_by: datetime, until: datetime) -> Reach:
        """Which deliveries of the pack's supplier would do for a need."""
        key = (pack.supplier, pack.life_on_arrival_days, wanted_by, until)
        known = self._reached.get(key)
        if known is None:
            known = self._reached[key] = self._reach(pack, wanted_by, until)
        return known

    def _reach(self, pack: Pack, wanted_by: datetime, until: datetime) -> Reach:
        supplier = pack.supplier
        window = self._window(pack, wanted_by, until)
        planned, is_last_at_risk = self._planned(pack, window)
        found, at_risk = self.calendar.open_in(supplier, planned), is_last_at_risk
        if not found and planned != window:
            found, at_risk = self.calendar.open_in(supplier, window), True
        return Reach(
            found,
            at_risk,
            self.calendar.last_cutoff(supplier, planned),
            is_last_at_risk,
        )

    def _planned(self, pack: Pack, window: range) -> tuple[range, bool]:
        """The window less the delivery kept in reserve for one that fails, and whether at risk."""
        if not self.suppliers[pack.supplier].may_fail:
            return window, False
        return (window[:-1], False) if len(window) > 1 else (window, True)

    def _window(self, pack: Pack, wanted_by: datetime, until: datetime) -> range:
        """Which deliveries would do for it, whatever the time is now."""
        supplier, life = pack.supplier, pack.life_on_arrival_days
        in_by = (supplier, wanted_by)
        stop = self._stops.get(in_by)
        if stop is None:
            last = before(wanted_by, self.margin, self.calendar.zone)
            stop = self._stops[in_by] = self.calendar.count_by(supplier, last)
        if life is None:
            return range(stop)
        lives = (supplier, life, until)
        start = self._starts.get(lives)
        if start is None:
            first = local_date(until, self.calendar.zone) - timedelta(days=life - 1)
            start = self._starts[lives] = self.calendar.count_before(supplier, first)
        return range(start, stop)
