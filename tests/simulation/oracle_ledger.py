"""What should stand where: a ledger in plain Python that shares no code with the product.

What happened is put in the order in which it happened, whenever it was handed in. A count says
what stood there at its instant, and whatever was written down for an earlier instant is in it
already (SY8). What was taken back never happened (LG4). At the same instant the order is that of
the journal.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import Decimal
from itertools import product

_THOUSANDTHS = {"ml": 1_000, "l": 1_000_000, "g": 1_000, "kg": 1_000_000}
_LOOKED_AT = timedelta(minutes=10)
"""Clocks that may be further off in all are not measured, and are believed."""
_MOST_DOUBTS = 6

Shelf = dict[tuple[str, str], int]
"""Thousandths by batch and account."""


def thousandths(written: str | dict) -> int:
    """A quantity as a command writes it, in thousandths of ml or g."""
    if isinstance(written, dict):
        number, unit = written["value"], written["unit"]
    else:
        number, unit = written.split()
    return int(Decimal(number) * _THOUSANDTHS[unit])


@dataclass(frozen=True)
class Posting:
    """So much of a batch, from one account to another; a count where `source` is None.

    Attributes:
        at: when it happened, as well as the clock knew.
        bound: how far the clock may have been off.
        truly: when it happened.
        position: its place in the journal.
    """

    at: datetime
    bound: timedelta
    truly: datetime
    position: int
    command: str
    device: str | None
    batch: str
    source: str | None
    target: str
    quantity: int

    def touches(self, account: str) -> bool:
        return account in (self.source, self.target)


class Ledger:
    """Postings, and what they come to."""

    def __init__(self) -> None:
        self.postings: list[Posting] = []
        self._stands: Shelf | None = None

    def post(self, posting: Posting) -> None:
        self.postings.append(posting)
        self._stands = None

    def take_back(self, command: str) -> None:
        """Nothing of it happened."""
        self.postings = [each for each in self.postings if each.command != command]
        self._stands = None

    def stands(self) -> Shelf:
        """What stands of each batch on each account that is not empty."""
        if self._stands is None:
            self._stands = _sum(self.postings, lambda each: each.at)
        return dict(self._stands)

    def truly(self) -> Shelf:
        """The same, had every clock been right."""
        return _sum(self.postings, lambda each: each.truly)

    def doubts(self) -> list[tuple[Posting, Posting]]:
        """Counts, each with a movement of another device that may have been before or after it."""
        return [
            (count, moved)
            for count in self.postings
            if count.source is None
            for moved in self.postings
            if moved.batch == count.batch and moved.source and moved.touches(count.target)
            if moved.device != count.device and _overlap(count, moved)
        ]

    def doubtful(self) -> frozenset[str]:
        """The batches of which that is so."""
        return frozenset(count.batch for count, _ in self.doubts())

    def possible(self, batch: str) -> list[Shelf]:
        """What stands of a batch in each order that the clocks leave open; all, or none if many."""
        doubts = [pair for pair in self.doubts() if pair[0].batch == batch]
        of_batch = [each for each in self.postings if each.batch == batch]
        if len(doubts) > _MOST_DOUBTS:
            return []
        return [
            _sum(_swapped(of_batch, doubts, swaps), lambda each: each.at)
            for swaps in product((False, True), repeat=len(doubts))
        ]


def _overlap(count: Posting, moved: Posting) -> bool:
    together = min(count.bound + moved.bound, _LOOKED_AT)
    return bool(together) and abs(count.at - moved.at) <= together


def _swapped(
    postings: list[Posting], doubts: list[tuple[Posting, Posting]], swaps: tuple[bool, ...]
) -> list[Posting]:
    """The postings with some movements on the other side of the count beside them."""
    at = {}
    for (count, moved), swap in zip(doubts, swaps, strict=True):
        if swap:
            a_moment = timedelta(microseconds=1 if moved.at <= count.at else -1)
            at[moved] = count.at + a_moment
    return [replace(each, at=at.get(each, each.at)) for each in postings]


def _sum(postings: Iterable[Posting], when: Callable[[Posting], datetime]) -> Shelf:
    found: Shelf = {}
    for each in sorted(postings, key=lambda each: (when(each), each.position)):
        target = (each.batch, each.target)
        source = (each.batch, each.source or "count_difference")
        quantity = each.quantity
        if each.source is None:
            quantity -= found.get(target, 0)
        found[target] = found.get(target, 0) + quantity
        found[source] = found.get(source, 0) - quantity
    return {key: quantity for key, quantity in found.items() if quantity}
