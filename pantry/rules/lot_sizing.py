"""The cheapest lots for one item, given what its deliveries cost beside (PL4).

The needs are gone through in the order of time; each is given what dies first of what would do
for it. Where something is lacking, now or later, a lot is bought that would do for this need: as
much as is lacking so far, or up to a later need. So a lot may also be bought for a need that is
covered, to leave for a later one what lives longer. Only the most promising partial answers are
kept (a beam search), so that it is quick and not always the best.

What would do for which need is worked out beforehand, once, as bits of a whole number: bit n for
the need n. Dates play no part any more.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from pantry.rules.deliveries import Delivery
from pantry.rules.lots import Lot, packs_for
from pantry.rules.market import Offer

KEPT = 6
"""How many partial answers are carried on from one need to the next."""

FINE = 1000
"""Costs in here are in thousandths of the minor unit, so that a share of a price is whole."""

Extra: TypeAlias = Callable[[Delivery, int], int]
"""What so much goods on a delivery add beside their price: its charge, what fills its minimum."""


class Part(NamedTuple):
    """What is there of one source or lot.

    Attributes:
        dies: sorts what dies first before what dies later.
        serves: bit n says whether it would do for need n.
        price: minor units for `size` of it that are lost if it dies; 0: it is lost for nothing.
    """

    dies: float
    serves: int
    amount: int
    price: int = 0
    size: int = 1


class Option(NamedTuple):
    """One pack on one delivery, and what a part of it would be."""

    offer: Offer
    part: Part


@dataclass(frozen=True, slots=True)
class Sizing:
    """What is wanted of one item, what is there of it, and what can be bought.

    Attributes:
        quantities: of the needs, in the order of time.
        there: batches, open orders, harvests.
        options: packs and deliveries that would do for one need or another.
    """

    quantities: tuple[int, ...]
    there: tuple[Part, ...]
    options: tuple[Option, ...]


@dataclass(slots=True)
class _Partial:
    """What covers the first needs.

    Attributes:
        cost: goods and what they cost beside, in thousandths.
        lost: the price of what died, likewise.
        parts: what is there for the needs that follow, what dies first being first.
        lacking: of each need that follows, if nothing more is bought.
        goods: minor units by delivery.
    """

    cost: int
    lost: int
    parts: tuple[Part, ...]
    lacking: list[int]
    goods: dict[str, int]
    lots: tuple[Lot, ...]

    def promise(self, cheapest: int) -> int:
        """The least the whole can come to, if what is lacking were bought by the gram."""
        return self.cost + self.lost + cheapest * sum(self.lacking) // FINE


def cheapest_lots(sizing: Sizing, extra: Extra) -> tuple[tuple[Lot, ...], int] | None:
    """The cheapest lots found that cover every need, and the price of what they lose.

    Args:
        sizing: what is wanted and what can be had.
        extra: what goods put on a delivery add beside their price.

    Returns:
        The lots and, in thousandths of the minor unit, the loss; None where a need cannot be
        covered.
    """
    start = tuple(sorted(sizing.there))
    kept = [_Partial(0, 0, start, _lacking(start, sizing.quantities, 0), {}, ())]
    cheapest = _cheapest(sizing.options)
    for number, quantity in enumerate(sizing.quantities):
        ready = [
            longer
            for partial in kept
            for longer in _bought(partial, number, sizing, extra)
            if not longer.lacking[0]
        ]
        for partial in ready:
            _give(partial, number, quantity)
        kept = _best(ready, cheapest)
    if not kept:
        return None
    return kept[0].lots, kept[0].lost


def _cheapest(options: Iterable[Option]) -> int:
    """The least price of a thousand thousandths, in thousandths of the minor unit."""
    packs = [option.offer.pack for option in options]
    return min((FINE * FINE * pack.price // pack.quantity for pack in packs), default=0)


def _best(partials: Iterable[_Partial], cheapest: int) -> list[_Partial]:
    """The most promising ones, no two of them with the same parts."""
    kept: dict[tuple[Part, ...], _Partial] = {}
    for one in sorted(partials, key=lambda partial: partial.promise(cheapest)):
        kept.setdefault(one.parts, one)
        if len(kept) == KEPT:
            break
    return list(kept.values())


def _bought(partial: _Partial, number: int, sizing: Sizing, extra: Extra) -> Iterator[_Partial]:
    """The partial answer as it is, and with each lot that may be bought for this need."""
    yield partial
    if not any(partial.lacking):
        return
    for option in sizing.options:
        if not option.part.serves >> number & 1:
            continue
        total = 0
        for later, lacking in enumerate(partial.lacking, start=number):
            total += lacking
            direct = option.part.serves >> later & 1
            if lacking and (partial.lacking[0] or not direct):
                for lots in _sizes(total, option, number, sizing):
                    yield _with(partial, lots, number, sizing, extra)


def _sizes(
    quantity: int, option: Option, number: int, sizing: Sizing
) -> Iterator[tuple[tuple[Lot, Part], ...]]:
    """Whole packs for so much: of one kind, or the last one replaced by smaller ones."""
    offer = option.offer
    whole = Lot(offer, packs_for(quantity, offer))
    yield ((whole, option.part),)
    if whole.packs == 1:
        return
    rest = quantity - (whole.packs - 1) * offer.pack.quantity
    for other in sizing.options:
        small = other.offer.pack
        same = other.offer.delivery is offer.delivery and other.part.serves >> number & 1
        if same and small.quantity < offer.pack.quantity:
            last = Lot(other.offer, packs_for(rest, other.offer))
            if last.goods < offer.pack.price:
                fewer = Lot(offer, whole.packs - 1)
                yield ((fewer, option.part), (last, other.part))


def _with(
    partial: _Partial,
    lots: tuple[tuple[Lot, Part], ...],
    number: int,
    sizing: Sizing,
    extra: Extra,
) -> _Partial:
    """The partial answer with these lots of one delivery put in."""
    delivery = lots[0][0].offer.delivery
    before = partial.goods.get(delivery.id, 0)
    price = sum(lot.goods for lot, _ in lots)
    more = extra(delivery, before + price) - (extra(delivery, before) if before else 0)
    new = (part._replace(amount=lot.quantity) for lot, part in lots)
    parts = tuple(sorted((*partial.parts, *new)))
    return _Partial(
        partial.cost + FINE * (price + more),
        partial.lost,
        parts,
        _lacking(parts, sizing.quantities, number),
        {**partial.goods, delivery.id: before + price},
        partial.lots + tuple(lot for lot, _ in lots),
    )


def _lacking(parts: Sequence[Part], quantities: Sequence[int], first: int) -> list[int]:
    """What each need from `first` on lacks, given what dies first of what would do."""
    left = [part.amount for part in parts]
    lacking = []
    for number in range(first, len(quantities)):
        wanted = quantities[number]
        for place, part in enumerate(parts):
            if left[place] and part.serves >> number & 1:
                taken = min(wanted, left[place])
                left[place] -= taken
                wanted -= taken
                if not wanted:
                    break
        lacking.append(wanted)
    return lacking


def _give(partial: _Partial, number: int, quantity: int) -> None:
    """Give the need what it is wanted; what would do for no later need has died."""
    parts = []
    for part in partial.parts:
        left = part.amount
        if quantity and part.serves >> number & 1:
            left -= min(quantity, left)
            quantity -= part.amount - left
        if left and part.serves >> (number + 1):
            parts.append(part._replace(amount=left))
        elif left and part.price:
            partial.lost += FINE * left * part.price // part.size
    partial.parts = tuple(parts)
    partial.lacking = partial.lacking[1:]
