"""One item's outlook as a question of how large its lots should be (PL4)."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import reduce
from itertools import pairwise
from operator import or_
from typing import NamedTuple

from pantry.rules.allocation import Source
from pantry.rules.covering import Part
from pantry.rules.implied_use import FOREVER
from pantry.rules.lot_sizing import Option, Sizing
from pantry.rules.lots import LotKey
from pantry.rules.market import Market, Offer
from pantry.rules.outlook import Outlook


class Wanted(NamedTuple):
    """So much, there by `wanted_by`, usable through `until`."""

    quantity: int
    wanted_by: datetime
    until: datetime


@dataclass(slots=True)
class Sizings:
    """Outlooks as questions, each put once.

    Attributes:
        market: what can be bought when.
        horizon: what dies by then unused is lost at its price.
    """

    market: Market
    horizon: datetime
    _known: dict[str, tuple[Outlook, Sizing]] = field(default_factory=dict)

    def of(self, outlook: Outlook) -> Sizing:
        """As `sizing_of`."""
        known = self._known.get(outlook.item)
        if known is None or known[0] is not outlook:
            known = (outlook, sizing_of(outlook, self.market, self.horizon))
            self._known[outlook.item] = known
        return known[1]


def sizing_of(outlook: Outlook, market: Market, horizon: datetime) -> Sizing:
    """What is wanted of the item and what is there, so that lots can be sized anew.

    Where nobody who sells it asks for a charge or a minimum, nothing is saved by a delivery before
    the latest that does for a need, and the latest is kept (PL3). Where opening or thawing matters
    or something is fixed, only what the lots cover now is wanted, and nothing else is there; where
    opening matters, what a lot covers stays together.

    Args:
        outlook: the item's, with the lots it has now.
        market: what can be bought when.
        horizon: what dies by then unused is lost at its price.
    """
    if outlook.is_plain:
        wanted = _by_need(outlook)
    else:
        wanted = _by_lot(outlook) if outlook.opens else _of_lots(outlook)
    sellers = [market.suppliers[pack.supplier] for pack in market.packs(outlook.item)]
    return _joined(
        Sizing(
            tuple(one.quantity for one in wanted),
            tuple(_part(source, wanted) for source in outlook.sources if outlook.is_plain),
            tuple(_options(outlook.item, wanted, market, horizon)),
            only_latest=not any(seller.charge or seller.minimum for seller in sellers),
        )
    )


def _joined(sizing: Sizing) -> Sizing:
    """The question with needs in a row made one for which the very same would do."""
    rows = [part.serves for part in sizing.there]
    rows += [row for o in sizing.options for row in (o.part.serves, o.latest)]
    changes = reduce(or_, (row ^ row >> 1 for row in rows), 0)
    count = len(sizing.quantities)
    firsts = [n for n in range(count) if not n or changes >> (n - 1) & 1]

    def joined(row: int) -> int:
        return sum(1 << n for n, first in enumerate(firsts) if row >> first & 1)

    def part_of(part: Part) -> Part:
        return part._replace(serves=joined(part.serves))

    return Sizing(
        tuple(
            sum(sizing.quantities[first:following])
            for first, following in pairwise([*firsts, count])
        ),
        tuple(map(part_of, sizing.there)),
        tuple(Option(o.offer, part_of(o.part), joined(o.latest)) for o in sizing.options),
        sizing.only_latest,
    )


def _by_need(outlook: Outlook) -> list[Wanted]:
    """What every need is given in all."""
    short = outlook.allocation.short
    given = ((need, need.quantity - short.get(need.id, 0)) for need in outlook.needs)
    return [Wanted(quantity, need.wanted_by, need.until) for need, quantity in given if quantity]


def _of_lots(outlook: Outlook) -> list[Wanted]:
    """What every need is given of the lots."""
    lots = {lot.id for lot in outlook.lots}
    taken: dict[str, int] = {}
    for pick in outlook.allocation.picks:
        if pick.source in lots:
            taken[pick.need] = taken.get(pick.need, 0) + pick.quantity
    return [
        Wanted(taken[need.id], need.wanted_by, need.until)
        for need in outlook.needs
        if need.id in taken
    ]


def _by_lot(outlook: Outlook) -> list[Wanted]:
    """What each lot is for, as one: so much that all of its packs are wanted."""
    needs = {need.id: need for need in outlook.needs}
    found = []
    for lot in outlook.lots:
        picks = [pick for pick in outlook.allocation.picks if pick.source == lot.id]
        if not picks:
            continue
        of_it = [needs[pick.need] for pick in picks]
        least = (lot.packs - 1) * lot.offer.pack.quantity + 1
        found.append(
            Wanted(
                max(least, sum(pick.quantity for pick in picks)),
                min(need.wanted_by for need in of_it),
                max(need.until for need in of_it),
            )
        )
    return sorted(found, key=lambda wanted: (wanted.wanted_by, wanted.until))


def _part(source: Source, wanted: Sequence[Wanted]) -> Part:
    dies = source.usable_until or FOREVER
    serves = 0
    for number, one in enumerate(wanted):
        if (source.ready is None or source.ready <= one.wanted_by) and dies >= one.until:
            serves |= 1 << number
    return Part(dies.timestamp(), serves, source.quantity)


def _options(
    item: str, wanted: Sequence[Wanted], market: Market, horizon: datetime
) -> Iterator[Option]:
    """Every pack and delivery that would do for any of it (PL3)."""
    serves: dict[LotKey, int] = {}
    latest: dict[LotKey, int] = {}
    offers: dict[LotKey, Offer] = {}
    for pack in market.packs(item):
        for number, one in enumerate(wanted):
            reach = market.reach(pack, one.wanted_by, one.until)
            key = None
            for delivery in reach.open:
                key = (delivery.id, pack.id)
                if key not in offers:
                    offers[key] = market.offer(pack, delivery, at_risk=reach.at_risk)
                serves[key] = serves.get(key, 0) | 1 << number
            if key:
                latest[key] = latest.get(key, 0) | 1 << number
    for key, offer in offers.items():
        dies = offer.usable_until or FOREVER
        price = offer.pack.price if dies <= horizon else 0
        part = Part(dies.timestamp(), serves[key], 0, price, offer.pack.quantity)
        yield Option(offer, part, latest.get(key, 0))
