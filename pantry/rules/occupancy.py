"""How full the house is day by day, and how much is kept in for those who are there (PL6).

Levels are set for the people who are in the house as a rule. On a day with nobody nothing need
stand there; on a light day, with half of them at most, what is used is used per head by those few.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from itertools import groupby
from typing import NamedTuple


class Fullness(StrEnum):
    """What is said of a day."""

    EMPTY = "empty"
    LIGHT = "light"
    OCCUPIED = "occupied"


class Spell(NamedTuple):
    """Days in a row that are alike, with the most who are there on any of them."""

    fullness: Fullness
    first: date
    last: date
    people: int


@dataclass(frozen=True, slots=True)
class Reckoned:
    """From what levels follow that are lower than those that are set.

    Attributes:
        usual: how many are in the house as a rule.
        at_one_table: the most who usually eat together.
        floor: as it is set.
        order_up_to: as it is set.
        days: the days that the delivery has to last for, each with how many are there.
    """

    usual: int
    at_one_table: int
    floor: int
    order_up_to: int | None
    days: tuple[tuple[date, int], ...]


@dataclass(frozen=True, slots=True)
class FittingLevels:
    """Floor and level for some days, in thousandths; `reckoned` None: they are those set."""

    floor: int
    order_up_to: int | None
    reckoned: Reckoned | None = None


@dataclass(frozen=True, slots=True)
class Occupancy:
    """Who is in the house.

    Attributes:
        usual: how many as a rule; 0: nobody has said, so that every day is an ordinary one.
        at_one_table: the most who usually eat together; 0: nobody has said.
        known: how many on days on which that is another number.
    """

    usual: int
    at_one_table: int = 0
    known: Mapping[date, int] = field(default_factory=dict)

    def heads(self, day: date) -> int:
        """How many are in the house on a day."""
        return self.known.get(day, self.usual)

    def fullness(self, day: date) -> Fullness:
        """Empty: nobody is there. Light: half of the usual number at most."""
        heads = self.heads(day)
        if not self.usual or 2 * heads > self.usual:
            return Fullness.OCCUPIED
        return Fullness.LIGHT if heads else Fullness.EMPTY

    def spells(self, days: Sequence[date]) -> list[Spell]:
        """The days taken together that are alike, but for those that are occupied."""
        return [
            Spell(fullness, alike[0], alike[-1], max(map(self.heads, alike)))
            for fullness, group in groupby(days, key=self.fullness)
            if fullness is not Fullness.OCCUPIED
            for alike in [tuple(group)]
        ]

    def levels(self, floor: int, order_up_to: int | None, days: Sequence[date]) -> FittingLevels:
        """What has to stand there so that it lasts these days, from the levels that are set.

        The floor is that of the fullest of the days: nothing on an empty one, and on a light one
        the share of those who are there in the most who eat together, since any dish may be chosen
        for all of them. What is ordered beyond it is the share of the people of these days in
        those of as many ordinary ones. An occupied day counts as an ordinary one. Rounded up.

        Args:
            floor: as it is set, in thousandths.
            order_up_to: as it is set; None: only the floor is.
            days: what has to last; at least one.
        """
        if all(self.fullness(day) is Fullness.OCCUPIED for day in days):
            return FittingLevels(floor, order_up_to)
        counted = [self._counted(day) for day in days]
        together = min(self.at_one_table or self.usual, self.usual)
        lower = _share(floor, min(max(counted), together), together)
        upper = None
        if order_up_to is not None:
            upper = lower + _share(order_up_to - floor, sum(counted), self.usual * len(days))
        told = tuple((day, self.heads(day)) for day in days)
        reckoned = Reckoned(self.usual, together, floor, order_up_to, told)
        return FittingLevels(lower, upper, reckoned)

    def _counted(self, day: date) -> int:
        """For how many a level is kept on a day."""
        return self.usual if self.fullness(day) is Fullness.OCCUPIED else self.heads(day)


def _share(quantity: int, part: int, whole: int) -> int:
    return -(-quantity * part // whole)
