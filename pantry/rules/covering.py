"""Covering needs one after the other from what is there, first expired, first out (AL1).

What would do for which need is worked out beforehand, once, as bits of a whole number: bit n for
the need n. Dates play no part any more.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pantry.rules.lots import Lot

FINE = 1000
"""Costs in here are in thousandths of the minor unit, so that a share of a price is whole."""


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


@dataclass(slots=True)
class Partial:
    """What covers the first needs; costs in thousandths of the minor unit.

    Attributes:
        cost: goods and what they cost beside.
        lost: the price of what died.
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


def lacking_of(parts: Sequence[Part], quantities: Sequence[int], first: int) -> list[int]:
    """What each need from `first` on lacks, given what dies first of what would do."""
    there = [[part.serves, part.amount] for part in parts]
    lacking = []
    for number in range(first, len(quantities)):
        wanted = quantities[number]
        bit = 1 << number
        for part in there:
            if part[0] & bit and part[1]:
                left = part[1]
                if left >= wanted:
                    part[1] = left - wanted
                    wanted = 0
                    break
                part[1] = 0
                wanted -= left
        lacking.append(wanted)
    return lacking


def give(partial: Partial, number: int, quantity: int) -> None:
    """Give the need what it is wanted; what would do for no later need has died."""
    parts = []
    for part in partial.parts:
        left = part.amount
        if quantity and part.serves >> number & 1:
            left -= min(quantity, left)
            quantity -= part.amount - left
        if left and part.serves >> (number + 1):
            parts.append(Part(part.dies, part.serves, left, part.price, part.size))
        elif left and part.price:
            partial.lost += FINE * left * part.price // part.size
    partial.parts = tuple(parts)
    partial.lacking = partial.lacking[1:]
