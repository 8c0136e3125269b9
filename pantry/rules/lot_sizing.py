"""The cheapest lots for one item, given what its deliveries cost beside (PL4).

The needs are gone through in the order of time; each is given what dies first of what would do
for it. Where something is lacking, now or later, a lot is bought that would do for this need: as
much as is lacking so far, or up to a later need, or as fills up a delivery to its minimum. So a
lot may also be bought for a need that is covered, to leave for a later one what lives longer. Only
the most promising partial answers are kept (a beam search), so that it is quick and not always the
best.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from math import inf
from operator import itemgetter
from typing import NamedTuple, TypeAlias

from pantry.rules.covering import FINE, Part, Partial, give, lacking_of
from pantry.rules.deliveries import Delivery
from pantry.rules.lots import Lot, packs_for
from pantry.rules.market import Offer

KEPT = 4
"""How many partial answers are carried on from one need to the next."""

AHEAD = 6
"""How many sizes of a lot are tried: for this need, for the next ones as well, and so on."""

PATIENCE = 4000
"""How many partial answers for one item are looked at before it is given up."""

MUCH = 10**12
"""Goods that fill up any minimum, in minor units."""

Adds: TypeAlias = Callable[[Delivery, int], int]
"""What so much goods on a delivery add beside their price: its charge, what fills its minimum."""


class Option(NamedTuple):
    """One pack on one delivery, and what a part of it would be.

    Attributes:
        latest: bit n says whether no later delivery of this pack would do for need n.
    """

    offer: Offer
    part: Part
    latest: int


Packs: TypeAlias = tuple[tuple[Option, int], ...]
"""How many packs of each of these options, all on one delivery."""


@dataclass(frozen=True, slots=True)
class Sizing:
    """What is wanted of one item, what is there of it, and what can be bought.

    Attributes:
        quantities: of the needs, in the order of time.
        there: batches, open orders, harvests.
        options: packs and deliveries that would do for one need or another.
        only_latest: what is bought for a need comes on the latest delivery that does (PL3).
    """

    quantities: tuple[int, ...]
    there: tuple[Part, ...]
    options: tuple[Option, ...]
    only_latest: bool


def least_cost(sizing: Sizing) -> int:
    """What the goods cost at least, in thousandths of the minor unit: as if bought by the gram."""
    lacking = lacking_of(sorted(sizing.there), sizing.quantities, 0)
    return _cheapest(sizing) * sum(lacking) // FINE


class Sized(NamedTuple):
    """What a search came to.

    Attributes:
        lots: the cheapest that were found to cover every need; None: none, under the limit.
        lost: the price of what they lose, in thousandths of the minor unit.
        tried: how many partial answers were looked at.
    """

    lots: tuple[Lot, ...] | None
    lost: int
    tried: int


def cheapest_lots(sizing: Sizing, adds: Adds, under: float = inf) -> Sized:
    """The cheapest lots found that cover every need.

    Args:
        sizing: what is wanted and what can be had.
        adds: what goods put on a delivery add beside their price.
        under: in thousandths of the minor unit, what it has to cost less than.
    """
    search = _Search(sizing, adds, under)
    found = search.found()
    return Sized(found.lots if found else None, found.lost if found else 0, search.tried)


class _Search:
    """One search; it goes through the needs once."""

    __slots__ = ("adds", "cheapest", "known", "sizing", "tried", "under")

    def __init__(self, sizing: Sizing, adds: Adds, under: float) -> None:
        self.sizing = sizing
        self.adds = adds
        self.under = under
        self.tried = 0
        self.cheapest = _cheapest(sizing)
        self.known: dict[tuple[str, int], int] = {}

    def found(self) -> Partial | None:
        """The best answer; None where there is none under the limit."""
        start = tuple(sorted(self.sizing.there))
        kept = [Partial(0, 0, start, lacking_of(start, self.sizing.quantities, 0), {}, ())]
        for number, quantity in enumerate(self.sizing.quantities):
            ready = [longer for partial in kept for longer in self._bought(partial, number)]
            if self.tried > PATIENCE:
                return None
            for partial in ready:
                give(partial, number, quantity)
            kept = self._best(ready)
        return kept[0] if kept else None

    def _promise(self, partial: Partial) -> int:
        """The least the whole can come to: as if what is lacking were bought by the gram."""
        return partial.cost + partial.lost + self.cheapest * sum(partial.lacking) // FINE

    def _best(self, partials: Iterable[Partial]) -> list[Partial]:
        """The most promising ones, less goods first, no two of them with the same parts."""
        promises = [(self._promise(one), sum(one.goods.values()), one) for one in partials]
        kept: dict[tuple[Part, ...], Partial] = {}
        for promise, _, one in sorted(promises, key=itemgetter(0, 1)):
            if promise >= self.under:
                break
            kept.setdefault(one.parts, one)
            if len(kept) == KEPT:
                break
        return list(kept.values())

    def _bought(self, partial: Partial, number: int) -> Iterator[Partial]:
        """The partial answers that cover this need: as it is, with one lot more, or with two.

        Two where the first is no more than what fills up its delivery to the minimum.
        """
        if not partial.lacking[0]:
            yield partial
        for longer in self._longer(partial, number):
            if not longer.lacking[0]:
                yield longer
            else:
                yield from (two for two in self._longer(longer, number) if not two.lacking[0])

    def _longer(self, partial: Partial, number: int) -> Iterator[Partial]:
        """The partial answer with each lot that may be bought for this need."""
        if not any(partial.lacking):
            return
        for option in self.sizing.options:
            allowed = option.latest if self.sizing.only_latest else option.part.serves
            if not allowed >> number & 1:
                continue
            amounts = self._amounts(partial.lacking, option, number)
            amounts.append(self._filling(partial, option))
            sizes = (self._sizes(amount, option, number) for amount in amounts if amount)
            different = {_prices(packs): packs for packs in chain.from_iterable(sizes)}
            for prices, packs in different.items():
                longer = self._with(partial, packs, sum(prices), number)
                if longer is not None:
                    yield longer

    def _amounts(self, lacking: Sequence[int], option: Option, number: int) -> list[int]:
        """What is lacking up to this need, and up to each of the next ones.

        Where this need lacks nothing: up to those that the option itself would not live to see;
        and as many packs as this need uses up, so that of these none is left to die.
        """
        lacks = lacking[0] > 0
        total = 0
        amounts = []
        for later, short in enumerate(lacking, start=number):
            if short and lacks and self.sizing.only_latest and not option.latest >> later & 1:
                break
            total += short
            if short and (lacks or not option.part.serves >> later & 1):
                amounts.append(total)
                if len(amounts) == AHEAD:
                    break
        if amounts and not lacks:
            wanted = self.sizing.quantities[number]
            amounts.append(min(wanted - wanted % option.offer.pack.quantity, total))
        return amounts

    def _filling(self, partial: Partial, option: Option) -> int:
        """As much as fills the delivery up to the minimum, or is lacking; 0: there is no need."""
        pack, delivery = option.offer.pack, option.offer.delivery
        if not pack.price:
            return 0
        before = partial.goods.get(delivery.id, 0)
        below = self._added(delivery, before) - self._added(delivery, before + MUCH)
        wanted = -(-below // pack.price) * pack.quantity
        return min(wanted, sum(partial.lacking)) if below > 0 else 0

    def _added(self, delivery: Delivery, goods: int) -> int:
        """As `adds`, which is asked once: nothing else is put on a delivery meanwhile."""
        key = (delivery.id, goods)
        known = self.known.get(key)
        if known is None:
            known = self.known[key] = self.adds(delivery, goods)
        return known

    def _sizes(self, quantity: int, option: Option, number: int) -> Iterator[Packs]:
        """Whole packs for so much: of one kind, or the last one replaced by smaller ones."""
        pack = option.offer.pack
        whole = packs_for(quantity, option.offer)
        yield ((option, whole),)
        if whole == 1:
            return
        rest = quantity - (whole - 1) * pack.quantity
        for other in self.sizing.options:
            small = other.offer.pack
            if small.quantity >= pack.quantity or other.offer.delivery is not option.offer.delivery:
                continue
            last = packs_for(rest, other.offer)
            if last * small.price < pack.price and other.part.serves >> number & 1:
                yield ((option, whole - 1), (other, last))

    def _with(self, partial: Partial, packs: Packs, price: int, number: int) -> Partial | None:
        """The partial answer with these packs of one delivery put in; None where it is too dear."""
        self.tried += 1
        delivery = packs[0][0].offer.delivery
        before = partial.goods.get(delivery.id, 0)
        more = self._added(delivery, before + price)
        more -= self._added(delivery, before) if before else 0
        cost = partial.cost + FINE * (price + more)
        new = [
            Part(p.dies, p.serves, count * offer.pack.quantity, p.price, p.size)
            for (offer, p, _), count in packs
        ]
        still = max(0, sum(partial.lacking) - sum(part.amount for part in new))
        if cost + partial.lost + self.cheapest * still // FINE >= self.under:
            return None
        parts = tuple(sorted((*partial.parts, *new)))
        return Partial(
            cost,
            partial.lost,
            parts,
            lacking_of(parts, self.sizing.quantities, number),
            {**partial.goods, delivery.id: before + price},
            (*partial.lots, *(Lot(option.offer, count) for option, count in packs)),
        )


def _prices(packs: Packs) -> tuple[int, ...]:
    """What each kind of them comes to, in minor units."""
    return tuple(count * option.offer.pack.price for option, count in packs)


def _cheapest(sizing: Sizing) -> int:
    """The least price of a thousand thousandths, in thousandths of the minor unit."""
    packs = (option.offer.pack for option in sizing.options)
    return min((FINE * FINE * pack.price // pack.quantity for pack in packs), default=0)
