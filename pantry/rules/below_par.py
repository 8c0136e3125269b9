"""What brings an item back over its floor, beside what the menu wants of it (PL1).

The level is what is free: there, usable, and what could be taken without making a need of a
confirmed menu shorter. Which batch a need is given may still be swapped (AL2): where another that
comes later would do as well, what is given is free until that one comes. If it were not, the same
packs would be wanted again once they are ordered, since the oldest goes to the menu. Daily use
that is still to come has not lowered the level yet. What the menu is short of is bought first, and
what is over of those packs counts as free, so that par and menu are never both ordered.

A delivery has to last from the day after it through the day of the one after it, or of what comes
after that where the next may fail; the levels are those that fit the people of these days (PL6).
So nothing is ordered for an empty house, and what was run down is there on the day before somebody
comes back.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from pantry.rules.basket import Basket
from pantry.rules.free import Free, free_at, free_of, lowest_of
from pantry.rules.house_time import after, days_of, local_date, start_of_day
from pantry.rules.implied_use import FOREVER
from pantry.rules.lots import Lot, LotKey, packs_for
from pantry.rules.market import Market, Offer
from pantry.rules.occupancy import FittingLevels, Occupancy, Reckoned
from pantry.rules.outlook import Outlook, with_lots
from pantry.rules.stock import Item

_SECOND = timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class Refill:
    """What par wants brought by one delivery.

    Attributes:
        lot: the packs that come for it, beside those that come for the menu in the same lot; None
            where no delivery of the horizon can be ordered, so that it stays wanted.
        at: when it comes; now, where it does not.
        floor: what has to be free, as it fits the people who are there.
        order_up_to: likewise.
        free: what is free then, or from when somebody is there again: quantities by source.
        over: how much of it is what the menu leaves of the packs that come for it in the same lot.
        lowest: the least that is free from then until before the following delivery, or until the
            packs die, where that is earlier.
        quantity: what par wants of the lot: order-up-to less what is free without `over`; floor
            less lowest without `over` where the item has no order-up-to, or where that is more and
            the levels are reckoned.
        reckoned: what floor and level follow from where they are not those that are set.
    """

    lot: Lot | None
    at: datetime
    floor: int
    order_up_to: int | None
    free: tuple[tuple[str, int], ...]
    over: int
    lowest: int
    quantity: int
    reckoned: Reckoned | None = None


def refilled(
    outlook: Outlook,
    item: Item,
    daily: frozenset[str],
    market: Market,
    basket: Basket,
    horizon: datetime,
    occupancy: Occupancy,
) -> tuple[Outlook, tuple[Refill, ...]]:
    """The outlook with what par wants as well, which is also put into the basket.

    At each delivery of whoever sells the item until the horizon: where the level is under the
    floor then, or will be before the following one, it is brought back to order-up-to (PL1). Of
    several packs the one that costs least with what its delivery costs beside; a later delivery of
    another supplier only where something is still free until it comes.
    """
    if item.floor is None:
        return outlook, ()
    search = _Search(
        outlook, item.floor, item.order_up_to, daily, market, basket, horizon, occupancy
    )
    found = tuple(search.refills())
    if search.outlook.lots == outlook.lots:
        return outlook, found
    return with_lots(search.outlook, search.outlook.lots, market), found


@dataclass(slots=True)
class _Search:
    outlook: Outlook
    floor: int
    order_up_to: int | None
    daily: frozenset[str]
    market: Market
    basket: Basket
    horizon: datetime
    occupancy: Occupancy
    free: list[Free] = field(init=False)
    over: dict[str, int] = field(init=False)
    by_day: bool = field(init=False)

    def __post_init__(self) -> None:
        self.free = free_of(self.outlook, self.daily, self.market)
        self.by_day = any(need.id in self.daily for need in self.outlook.needs)
        self.over = {
            step.lot.id: step.lot.quantity - sum(step.gains.values())
            for step in self.outlook.steps or ()
        }

    def refills(self) -> Iterator[Refill]:
        """Delivery by delivery, what par wants of it."""
        at = self.market.calendar.now
        if lowest_of(self.free, at, self.horizon) >= self.floor:
            return
        offers = self._offers(at)
        if not offers and (missing := self._refill(None, at)).lowest < missing.floor:
            yield missing
        while offers:
            at = offers[0].delivery.at
            refill = None
            if self._falls_short(at, offers):
                refill = self._cheapest(offers, at)
            if refill is not None:
                at = refill.at
                self._put(refill)
                yield refill
            offers = self._offers(at + _SECOND)

    def _offers(self, since: datetime) -> list[Offer]:
        """The next delivery of everyone who sells it, the first first."""
        offers = self.market.next_offers(self.outlook.item, since)
        within = (offer for offer in offers if offer.delivery.at <= self.horizon)
        return sorted(within, key=lambda offer: offer.delivery.at)

    def _following(self, at: datetime) -> datetime:
        """When the delivery after that instant comes; the horizon, where none does."""
        following = self._offers(at + _SECOND)
        return following[0].delivery.at if following else self.horizon

    def _lasts_until(self, at: datetime) -> datetime:
        """When more has come for certain: of what may fail, the delivery after it."""
        following = self._offers(at + _SECOND)
        if not following:
            return self.horizon
        first = following[0].delivery
        if self.market.suppliers[first.supplier].may_fail:
            return self._following(first.at)
        return first.at

    def _falls_short(self, at: datetime, offers: Sequence[Offer]) -> bool:
        """Whether par wants something of what comes from that instant on.

        It does not where what is ordered already comes, among the next deliveries, while something
        is still free, and lasts then: so an order of one seller is waited for as its delivery was
        when it was chosen before an earlier one of another. What is ordered as the plan says asks
        for nothing more.
        """
        if self._lasts(at):
            return False
        since, _, _ = self._has_to_last(at)
        latest = max(offer.delivery.at for offer in offers)
        comes = {part.ready for part in self.free if at < part.ready <= latest}
        return not any(
            lowest_of(self.free, since, ready) > 0 and self._lasts(ready) for ready in comes
        )

    def _lasts(self, at: datetime) -> bool:
        """Whether what is there does last until what comes after that instant has come."""
        since, until, floor = self._has_to_last(at)
        return lowest_of(self.free, since, until) >= floor

    def _has_to_last(self, at: datetime) -> tuple[datetime, datetime, int]:
        """From when until just before when how much has to be free, by what comes at an instant."""
        until = self._lasts_until(at)
        levels = self._levels(at, until)
        if levels.reckoned is None:
            return at, self._following(at), levels.floor
        return self._since(levels, at), until, levels.floor

    def _levels(self, at: datetime, until: datetime, dies: datetime | None = None) -> FittingLevels:
        """The levels as they fit those who are there until more has come, or what comes dies."""
        if not self.occupancy.known:
            return FittingLevels(self.floor, self.order_up_to)
        zone = self.market.calendar.zone
        end = min(self.horizon, after(until, self.market.margin, zone))
        first = local_date(at, zone) + timedelta(days=1)
        last = max(first, local_date(end, zone))
        if dies is not None:
            last = min(last, local_date(dies, zone))
        days = days_of(min(first, last), last)
        return self.occupancy.levels(self.floor, self.order_up_to, days)

    def _since(self, levels: FittingLevels, at: datetime) -> datetime:
        """From when it has to be there: when it comes, or later, when somebody is there again."""
        days = levels.reckoned.days if levels.reckoned else ()
        somebody = [day for day, heads in days if heads]
        return max([at, *(start_of_day(day, self.market.calendar.zone) for day in somebody[:1])])

    def _helps_until(self, offer: Offer, levels: FittingLevels) -> datetime:
        """Before when its packs can raise the level: the following delivery, or their end."""
        at, dies = offer.delivery.at, offer.usable_until
        following = self._lasts_until(at) if levels.reckoned else self._following(at)
        return following if dies is None else min(following, dies + _SECOND)

    def _cheapest(self, offers: Sequence[Offer], first: datetime) -> Refill | None:
        """What costs least; the first delivery, or one before which something is still free."""
        possible = (
            self._refill(offer, offer.delivery.at)
            for offer in offers
            if offer.delivery.at == first or lowest_of(self.free, first, offer.delivery.at) > 0
        )
        priced = ((self._price(refill), refill) for refill in possible)
        wanted = [(price, refill) for price, refill in priced if price is not None]
        return min(wanted, key=lambda pair: pair[0])[1] if wanted else None

    def _price(self, refill: Refill) -> tuple[int, datetime, LotKey] | None:
        """What it costs with what its delivery costs beside; None where nothing is wanted then."""
        lot = refill.lot
        if lot is None or not lot.packs or refill.lowest >= refill.floor:
            return None
        beside = self.basket.adding(lot.offer.delivery, lot.goods)
        return (lot.goods + beside, refill.at, lot.key)

    def _refill(self, offer: Offer | None, at: datetime) -> Refill:
        """What par wants of that offer; None: of nobody."""
        dies = offer.usable_until if offer else None
        levels = self._levels(at, self._lasts_until(at) if offer else self.horizon, dies)
        floor, upto = levels.floor, levels.order_up_to
        since = self._since(levels, at)
        free = tuple(free_at(self.free, since))
        level = sum(quantity for _, quantity in free)
        until = since if offer is None else self._helps_until(offer, levels)
        lowest = lowest_of(self.free, since, until)
        lacking = floor - lowest if upto is None else upto - level
        if levels.reckoned:
            lacking = max(lacking, floor - lowest)
        why = levels.reckoned
        if offer is None:
            return Refill(None, at, floor, upto, free, 0, lowest, lacking, why)
        lot = Lot(offer, max(0, packs_for(lacking, offer)))
        over = min(self.over.get(lot.id, 0), level)
        return Refill(lot, at, floor, upto, free, over, lowest, lacking + over, why)

    def _put(self, refill: Refill) -> None:
        """Count its lot in; where the item is used daily, that use is given anew."""
        lot = refill.lot
        if lot is None:
            return
        self.basket.add([lot])
        lots = (*self.outlook.lots, lot)
        if self.by_day:
            self.outlook = with_lots(self.outlook, lots, self.market)
            self.free = free_of(self.outlook, self.daily, self.market)
        else:
            self.outlook = replace(self.outlook, lots=lots)
            until = lot.offer.usable_until or FOREVER
            self.free.append(Free(lot.id, lot.quantity, lot.offer.delivery.at, until))
