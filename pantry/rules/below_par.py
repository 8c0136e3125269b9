"""What brings an item back over its floor, beside what the menu wants of it (PL1).

The level is what is free: there, usable, and what could be taken without making a need of a
confirmed menu shorter. Which batch a need is given may still be swapped (AL2): where another that
comes later would do as well, what is given is free until that one comes. If it were not, the same
packs would be wanted again once they are ordered, since the oldest goes to the menu. Daily use
that is still to come has not lowered the level yet. What the menu is short of is bought first, and
what is over of those packs counts as free, so that par and menu are never both ordered.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import NamedTuple

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.basket import Basket
from pantry.rules.implied_use import FOREVER
from pantry.rules.lots import Lot, LotKey, packs_for, source_of
from pantry.rules.market import Market, Offer
from pantry.rules.outlook import Outlook, with_lots
from pantry.rules.stock import Item

_SECOND = timedelta(seconds=1)
_EVER = datetime.min.replace(tzinfo=UTC)


class Free(NamedTuple):
    """A quantity of one source that no confirmed menu needs, between two instants."""

    source: str
    quantity: int
    ready: datetime
    until: datetime


@dataclass(frozen=True, slots=True)
class Refill:
    """What par wants brought by one delivery.

    Attributes:
        lot: the packs that come for it, beside those that come for the menu in the same lot; None
            where no delivery of the horizon can be ordered, so that it stays wanted.
        at: when it comes; now, where it does not.
        free: what is free then: quantities by source.
        over: how much of it is what the menu leaves of the packs that come for it in the same lot.
        lowest: the least that is free from then until before the following delivery, or until the
            packs die, where that is earlier.
        quantity: what par wants of the lot: order-up-to less what is free without `over`; floor
            less lowest without `over` where the item has no order-up-to.
    """

    lot: Lot | None
    at: datetime
    floor: int
    order_up_to: int | None
    free: tuple[tuple[str, int], ...]
    over: int
    lowest: int
    quantity: int


def refilled(
    outlook: Outlook,
    item: Item,
    daily: frozenset[str],
    market: Market,
    basket: Basket,
    horizon: datetime,
) -> tuple[Outlook, tuple[Refill, ...]]:
    """The outlook with what par wants as well, which is also put into the basket.

    At each delivery of whoever sells the item until the horizon: where the level is under the
    floor then, or will be before the following one, it is brought back to order-up-to (PL1). Of
    several packs the one that costs least with what its delivery costs beside; a later delivery of
    another supplier only where something is still free until it comes.
    """
    if item.floor is None:
        return outlook, ()
    search = _Search(outlook, item.floor, item.order_up_to, daily, market, basket, horizon)
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
        if _lowest(self.free, at, self.horizon) >= self.floor:
            return
        offers = self._offers(at)
        if not offers and (missing := self._refill(None, at)).lowest < self.floor:
            yield missing
        while offers:
            at = offers[0].delivery.at
            refill = None
            if _lowest(self.free, at, self._following(at)) < self.floor:
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

    def _helps_until(self, offer: Offer) -> datetime:
        """Before when its packs can raise the level: the following delivery, or their end."""
        following = self._following(offer.delivery.at)
        dies = offer.usable_until
        return following if dies is None else min(following, dies + _SECOND)

    def _cheapest(self, offers: Sequence[Offer], first: datetime) -> Refill | None:
        """What costs least; the first delivery, or one before which something is still free."""
        possible = (
            self._refill(offer, offer.delivery.at)
            for offer in offers
            if offer.delivery.at == first or _lowest(self.free, first, offer.delivery.at) > 0
        )
        priced = ((self._price(refill), refill) for refill in possible)
        wanted = [(price, refill) for price, refill in priced if price is not None]
        return min(wanted, key=lambda pair: pair[0])[1] if wanted else None

    def _price(self, refill: Refill) -> tuple[int, datetime, LotKey] | None:
        """What it costs with what its delivery costs beside; None where nothing is wanted then."""
        lot = refill.lot
        if lot is None or not lot.packs or refill.lowest >= self.floor:
            return None
        beside = self.basket.adding(lot.offer.delivery, lot.goods)
        return (lot.goods + beside, refill.at, lot.key)

    def _refill(self, offer: Offer | None, at: datetime) -> Refill:
        """What par wants of that offer; None: of nobody."""
        free = tuple(_free_at(self.free, at))
        level = sum(quantity for _, quantity in free)
        lowest = _lowest(self.free, at, at if offer is None else self._helps_until(offer))
        upto = self.order_up_to
        lacking = self.floor - lowest if upto is None else upto - level
        if offer is None:
            return Refill(None, at, self.floor, upto, free, 0, lowest, lacking)
        lot = Lot(offer, max(0, packs_for(lacking, offer)))
        over = min(self.over.get(lot.id, 0), level)
        return Refill(lot, at, self.floor, upto, free, over, lowest, lacking + over)

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


def free_of(outlook: Outlook, daily: frozenset[str], market: Market) -> list[Free]:
    """Everything that no need but a daily one wants, and between which instants it is free."""
    ready = {source.id: source.ready or _EVER for source in outlook.sources}
    ready |= {lot.id: lot.offer.delivery.at for lot in outlook.lots}
    allocation = outlook.allocation
    left = [(part.id, part.quantity, part.usable_until or FOREVER) for part in allocation.left]
    lost = [(loss.source, loss.quantity, loss.at) for loss in allocation.lost]
    used = {need.id: need.wanted_by - _SECOND for need in outlook.needs if need.id in daily}
    picked = [
        (pick.source, pick.quantity, used[pick.need])
        for pick in allocation.picks
        if pick.need in used
    ]
    free = [Free(id_, quantity, ready[id_], until) for id_, quantity, until in left + lost + picked]
    if not outlook.is_plain:
        return free
    return free + list(_until_another_comes(outlook, ready, daily, market))


def _until_another_comes(
    outlook: Outlook, arrives: dict[str, datetime], daily: frozenset[str], market: Market
) -> Iterator[Free]:
    """What menus are given and could as well be given of what is over and comes later (AL2)."""
    planned = [source_of(lot, market) for lot in outlook.lots]
    sources = {source.id: source for source in (*outlook.sources, *planned)}
    over = dict.fromkeys(sources, 0) | _over(outlook.allocation)
    latest_first = sorted(over, key=lambda id_: arrives[id_], reverse=True)
    needs = {need.id: need for need in outlook.needs if need.id not in daily}
    for pick in reversed(outlook.allocation.picks):
        given = pick.quantity if pick.need in needs else 0
        until = sources[pick.source].usable_until or FOREVER
        for id_ in latest_first:
            swapped = min(given, over[id_])
            later = arrives[id_] > arrives[pick.source]
            if swapped and later and _does(sources[id_], needs[pick.need]):
                over[id_] -= swapped
                over[pick.source] += swapped  # an earlier need may in turn be given that
                given -= swapped
                ends = min(until, arrives[id_] - _SECOND)
                yield Free(pick.source, swapped, arrives[pick.source], ends)


def _over(allocation: Allocation) -> dict[str, int]:
    """What no need is given, by source."""
    over: dict[str, int] = {}
    for part in allocation.left:
        over[part.id] = over.get(part.id, 0) + part.quantity
    for loss in allocation.lost:
        over[loss.source] = over.get(loss.source, 0) + loss.quantity
    return over


def _does(source: Source, need: Need) -> bool:
    """Whether it is there when the need wants it, and usable for as long as that has to last."""
    there = source.ready is None or source.ready <= need.wanted_by
    return there and (source.usable_until is None or source.usable_until >= need.until)


def _free_at(free: Sequence[Free], at: datetime) -> list[tuple[str, int]]:
    """What is free at an instant, by source."""
    there: dict[str, int] = {}
    for part in free:
        if part.ready <= at <= part.until:
            there[part.source] = there.get(part.source, 0) + part.quantity
    return list(there.items())


def _lowest(free: Sequence[Free], first: datetime, before: datetime) -> int:
    """The least that is free from an instant until just before another."""
    ends = {part.until + _SECOND for part in free if first <= part.until < FOREVER}
    instants = [first, *(end for end in ends if end < before)]
    return min(sum(quantity for _, quantity in _free_at(free, at)) for at in instants)
