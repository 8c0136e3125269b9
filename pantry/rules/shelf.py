"""The parts of one item's sources, kept in the order in which they die (AL1)."""

from bisect import bisect_left, insort
from collections.abc import Iterator
from datetime import datetime
from heapq import heappop, heappush
from typing import TypeAlias

from pantry.rules.implied_use import Part, Use, can_serve, draw

Place: TypeAlias = tuple[datetime, datetime, bool, datetime, str, int, Part]
"""Dies first, past its best first, opened first, oldest, id; then a number, so that no two tie."""

Given: TypeAlias = tuple[str, int, datetime | None]
"""The source's id, the quantity, and when it must be taken out of the freezer."""


class Shelf:
    """What stands there at one instant, and what is still to come, for one item.

    Attributes:
        piece: thousandths in one whole piece; 0: divisible.
        at: how far the projection has come; it only moves forward.
    """

    __slots__ = ("_coming", "_number", "_standing", "at", "piece")

    def __init__(self, now: datetime, piece: int) -> None:
        self.piece = piece
        self.at = now
        self._standing: list[Place] = []
        self._coming: list[tuple[datetime, int, Part]] = []
        self._number = 0

    def copy(self) -> "Shelf":
        """The same, to go on by itself."""
        same = Shelf(self.at, self.piece)
        same._standing = [(*place[:-1], place[-1].copy()) for place in self._standing]
        same._coming = [(ready, number, part.copy()) for ready, number, part in self._coming]
        same._number = self._number
        return same

    def put(self, part: Part) -> None:
        """Put a part where it belongs: among what stands there, or among what is to come."""
        self._number += 1
        if part.ready > self.at and part.sealed_until is None:
            heappush(self._coming, (part.ready, self._number, part))
        else:
            insort(self._standing, self._place(part, self._number))

    def give(self, amount: int, use: Use) -> list[Given]:
        """Give up to `amount` for the use, from what is usable through it and dies first.

        Uses must be asked in the order of `at`. What dies before `use.until` is passed over: it
        stays, for a later use that ends sooner.
        """
        self._arrive(use.at)
        places = self._standing
        index = bisect_left(places, (use.until,))
        given: list[Given] = []
        rests: list[Part] = []
        while amount and index < len(places):
            part = places[index][-1]
            taken = self._takes(part, amount, use)
            if not taken:
                index += 1
                continue
            amount -= taken
            given.append((part.source.id, taken, use.thaw_from if part.frozen else part.thaw_from))
            moves = part.ready > use.at
            rest = draw(part, taken, use)
            if rest:
                rests.append(rest)
            if moves and part.quantity:
                rests.append(part)
            if moves or not part.quantity:
                del places[index]
            else:
                index += 1
        for rest in rests:
            self.put(rest)
        return given

    def is_spent(self, at: datetime) -> bool:
        """Whether nothing that lives until then stands there, and nothing is to come."""
        return not self._coming and (not self._standing or self._standing[-1][0] < at)

    def parts(self) -> Iterator[Part]:
        """Everything with something in it, in the order in which it dies."""
        coming = [self._place(part, number) for _, number, part in self._coming]
        places = sorted(self._standing + coming)
        return (place[-1] for place in places if place[-1].quantity)

    def _takes(self, part: Part, amount: int, use: Use) -> int:
        """How much of a part the use takes.

        Of what is used in whole pieces only the whole pieces are given: four tenths of a chicken
        serve nobody who needs a chicken, and stay. Needs come in whole pieces; only where a fixed
        pick has left an odd rest of one is a piece cut for it.
        """
        plain = not part.frozen and not part.unit and part.ready <= use.at
        if not plain and not can_serve(part, use):
            return 0
        whole = part.quantity - part.quantity % self.piece if self.piece else part.quantity
        return min(amount, whole)

    def _arrive(self, at: datetime) -> None:
        self.at = at
        while self._coming and self._coming[0][0] <= at:
            _, number, part = heappop(self._coming)
            insort(self._standing, self._place(part, number))

    @staticmethod
    def _place(part: Part, number: int) -> Place:
        source = part.source
        return (
            part.usable_until,
            part.good_until,
            not part.opened,
            source.since,
            source.id,
            number,
            part,
        )
