"""Lots: whole packs of an item on one delivery, as the plan proposes to order them (PL3)."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import NamedTuple, TypeAlias

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.house_time import after
from pantry.rules.market import Market, Offer

PLANNED = "planned"
"""The kind of a source that is no more than a proposal to order."""

LotKey: TypeAlias = tuple[str, str]
"""Delivery and pack: what is ordered together is one lot."""


@dataclass(frozen=True, slots=True)
class Lot:
    """So many packs of one kind on one delivery."""

    offer: Offer
    packs: int

    @property
    def key(self) -> LotKey:
        """Its delivery and pack."""
        return (self.offer.delivery.id, self.offer.pack.id)

    @property
    def id(self) -> str:
        """The id of its source."""
        return f"{PLANNED}/{self.offer.delivery.id}/{self.offer.pack.id}"

    @property
    def quantity(self) -> int:
        """What it holds, in thousandths of the item's base unit."""
        return self.packs * self.offer.pack.quantity

    @property
    def goods(self) -> int:
        """What it costs, in minor units, without what its delivery costs."""
        return self.packs * self.offer.pack.price


def packs_for(quantity: int, offer: Offer) -> int:
    """Whole packs for so much."""
    return -(-quantity // offer.pack.quantity)


def source_of(lot: Lot, market: Market, id_: str = "") -> Source:
    """The lot as something needs can be given from, once it is in and the margin has passed."""
    pack, delivery = lot.offer.pack, lot.offer.delivery
    return Source(
        PLANNED,
        id_ or lot.id,
        pack.item,
        lot.quantity,
        lot.offer.usable_until,
        None,
        delivery.at,
        after(delivery.at, market.margin, market.calendar.zone),
        pack.sealed_quantity,
    )


def together(lots: Iterable[Lot]) -> tuple[Lot, ...]:
    """The lots with those of one delivery and pack made one, in the order of delivery."""
    merged: dict[LotKey, Lot] = {}
    for lot in lots:
        known = merged.get(lot.key)
        merged[lot.key] = replace(lot, packs=lot.packs + known.packs) if known else lot
    return tuple(sorted(merged.values(), key=lambda lot: (lot.offer.delivery.at, lot.key)))


class Bought(NamedTuple):
    """A lot and what it was bought for."""

    lot: Lot
    need: str
    short: int


@dataclass(slots=True)
class Shopper:
    """Buys lot by lot whatever is short, and remembers what it bought under which source (PL3).

    Of every pack's latest delivery that does, what is sure goes before what may fail, then the
    least price for what is short, then the later delivery.

    Attributes:
        bought: by the id of the source it answered with. Who asks may ask twice: what counts is
            what is found in the allocation.
    """

    market: Market
    bought: dict[str, Bought] = field(default_factory=dict)

    def buy(self, need: Need, short: int) -> Source | None:
        """What would be bought for a need that is short of so much; None: nobody can make it."""
        offers = self.market.offers(need.item, need.wanted_by, need.until)
        if not offers:
            return None
        lot = min((Lot(o, packs_for(short, o)) for o in offers), key=_preference)
        id_ = f"{lot.id}/{len(self.bought)}"
        self.bought[id_] = Bought(lot, need.id, short)
        source = source_of(lot, self.market, id_)
        if source.ready is not None and source.ready > need.wanted_by:
            return replace(source, ready=need.wanted_by)
        return source

    def used(self, allocation: Allocation) -> list[Bought]:
        """What was bought and is given to a need, in the order of the needs."""
        ids = dict.fromkeys(pick.source for pick in allocation.picks)
        return [self.bought[id_] for id_ in ids if id_ in self.bought]


def _preference(lot: Lot) -> tuple[bool, int, float, str, str]:
    delivery = lot.offer.delivery
    return (lot.offer.at_risk, lot.goods, -delivery.at.timestamp(), *lot.key)
