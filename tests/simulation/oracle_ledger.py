"""What should stand where: a ledger in plain Python that shares no code with the product.

A count says what stood there, and whatever happened before it is in it already, whenever it was
handed in (SY8). What came first is said by the device where it is one, else by the time, and at
the same instant by the journal. What was taken back never happened (LG4).
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from functools import reduce
from itertools import product

_THOUSANDTHS = {"ml": 1_000, "l": 1_000_000, "g": 1_000, "kg": 1_000_000}
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


Pair = tuple[Posting, Posting]
"""A count, and a movement."""

Before = Callable[[Posting, Posting], bool]
"""Whether the one came before the other."""


class Ledger:
    """Postings, and what they come to."""

    def __init__(self) -> None:
        self.postings: list[Posting] = []
        self._taken_back: list[Posting] = []
        self._stands: Shelf | None = None

    def post(self, posting: Posting) -> None:
        self.postings.append(posting)
        self._stands = None

    def take_back(self, command: str) -> None:
        """Nothing of it happened."""
        self._taken_back += [each for each in self.postings if each.command == command]
        self.postings = [each for each in self.postings if each.command != command]
        self._stands = None

    def stands(self) -> Shelf:
        """What stands of each batch on each account that is not empty."""
        if self._stands is None:
            self._stands = _sum(self.postings, _by_clocks)
        return dict(self._stands)

    def truly(self) -> Shelf:
        """The same, had every clock been right."""
        return _sum(self.postings, _truly)

    def doubtful(self) -> frozenset[str]:
        """The batches that were counted and moved with clocks that leave open what came first.

        A movement that was taken back is looked at too: where a count was between the two, it was
        held against what had been moved.
        """
        pairs = _doubts([*self.postings, *self._taken_back])
        return frozenset(count.batch for count, _ in pairs)

    def unsure(self) -> set[tuple[str, str]]:
        """Account and batch wherever something was moved beside a count handed in before that."""
        counts = [each for each in self.postings if each.source is None]
        return {
            (count.target, count.batch)
            for count, moved in _doubts(self.postings)
            if count.position < moved.position and count == _last(_until(moved, count, counts))
        }

    def possible(self, batch: str) -> list[Shelf]:
        """What stands of a batch in each order that the clocks leave open; all, or none if many."""
        of_batch = [each for each in self.postings if each.batch == batch]
        doubts = _doubts(of_batch)
        if len(doubts) > _MOST_DOUBTS:
            return []
        return [
            _sum(
                of_batch,
                _otherwise({pair for pair, swap in zip(doubts, swaps, strict=True) if swap}),
            )
            for swaps in product((False, True), repeat=len(doubts))
        ]


def _doubts(postings: list[Posting]) -> list[Pair]:
    """Counts, each with a movement of another device that may have been before or after it."""
    return [
        (count, moved)
        for count in postings
        if count.source is None
        for moved in postings
        if moved.batch == count.batch and moved.source and moved.touches(count.target)
        if moved.device != count.device and _overlap(count, moved)
    ]


def _overlap(count: Posting, moved: Posting) -> bool:
    together = count.bound + moved.bound
    return bool(together) and abs(count.at - moved.at) <= together


def _by_clocks(one: Posting, other: Posting) -> bool:
    if one.device and one.device == other.device:
        return one.position < other.position
    return (one.at, one.position) < (other.at, other.position)


def _truly(one: Posting, other: Posting) -> bool:
    return (one.truly, one.position) < (other.truly, other.position)


def _otherwise(swapped: set[Pair]) -> Before:
    """By the clocks, but for some movements, which are on the other side of the count."""

    def before(moved: Posting, count: Posting) -> bool:
        return _by_clocks(moved, count) != ((count, moved) in swapped)

    return before


def _sum(postings: list[Posting], before: Before) -> Shelf:
    """On each account the last count and what came after it; what counts found beside that."""
    found: Shelf = {}
    for batch, account in {(e.batch, a) for e in postings for a in (e.source, e.target) if a}:
        touching = [e for e in postings if e.batch == batch and e.touches(account)]
        found[batch, account] = _on_account(touching, account, before)
    for (batch, _), quantity in list(found.items()):
        difference = (batch, "count_difference")
        found[difference] = found.get(difference, 0) - quantity
    return {key: quantity for key, quantity in found.items() if quantity}


def _until(moved: Posting, count: Posting, counts: list[Posting]) -> list[Posting]:
    """The counts of the same shelf that had been handed in when something was moved."""
    return [
        each
        for each in counts
        if (each.batch, each.target) == (count.batch, count.target)
        and each.position < moved.position
    ]


def _last(counts: list[Posting], before: Before = _by_clocks) -> Posting | None:
    """Counts are gone through as they were handed in: each stands until one comes after it."""
    return reduce(lambda one, other: one if before(other, one) else other, counts or [None])


def _on_account(touching: Iterable[Posting], account: str, before: Before) -> int:
    counts = [each for each in touching if each.source is None]
    moves = [each for each in touching if each.source]
    last = _last(counts, before)
    return (last.quantity if last else 0) + sum(
        each.quantity * (1 if each.target == account else -1)
        for each in moves
        if last is None or not before(each, last)
    )
