"""What is projected of one item: its needs in the order of time, its sources, what stays (AL2)."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple, TypeAlias

from pantry.rules.allocation import Handling, Need, Pick, Source
from pantry.rules.fixed_picks import take_fixed, what_holds
from pantry.rules.implied_use import Part, standing
from pantry.rules.shelf import Given


class Want(NamedTuple):
    """A need with its window as it is from now on: what should have been there is wanted now."""

    need: Need
    at: datetime
    until: datetime


class Case:
    """One item's needs, sources and fixed picks at one instant.

    What is worked out of them once serves every projection of the case, and of `with_more`.

    Attributes:
        line: the needs in the order of time, then rank, then id.
        sources: what can be given, and what has been bought meanwhile.
        fixed: the fixed picks that hold, with their need's place in the line, in its order.
        beginning: see `begun`; None as long as nobody asked.
    """

    __slots__ = ("beginning", "fixed", "handling", "line", "now", "sources")

    def __init__(
        self,
        needs: Iterable[Need],
        sources: Iterable[Source],
        now: datetime,
        fixed: Sequence[Pick],
        handling: Handling,
    ) -> None:
        self.now = now
        self.handling = handling
        self.sources = [source for source in sources if source.quantity > 0]
        self.line = [_want(need, now) for need in needs if need.quantity > 0]
        self.line.sort(key=lambda want: (want.at, want.need.rank, want.need.id))
        self.fixed = self.held(fixed) if fixed else []
        self.beginning: Begun | None = None

    @property
    def exact(self) -> bool:
        """Nothing is opened, thawed or whole, so that a projection covers as much as can be."""
        divisible = not self.handling.piece and self.handling.opened_until is None
        return divisible and not any(source.frozen for source in self.sources)

    def begun(self) -> "Begun":
        """What every projection of it begins with; what was bought meanwhile is among it."""
        known = self.beginning
        if known is None:
            known = self.beginning = _begun(self)
        return known

    def add(self, source: Source) -> None:
        """Put what was bought to the sources."""
        self.sources.append(source)
        if self.beginning is not None:
            self.beginning.parts.append(standing(source, self.now, self.handling))

    def with_more(self, sources: Iterable[Source]) -> "Case":
        """The same with sources that no fixed pick is of."""
        more = [source for source in sources if source.quantity > 0]
        same = self._with((*self.sources, *more), self.handling)
        same.fixed = self.fixed
        parts, given, granted = self.begun()
        added = [standing(source, self.now, self.handling) for source in more]
        same.beginning = Begun(parts + added, given, granted)
        return same

    def beside(self, needs: Iterable[Need]) -> "Case":
        """Other needs, and what its fixed picks leave for them."""
        other = Case(needs, self.sources, self.now, (), self.handling)
        other.beginning = Begun([*self.begun().parts], {}, [0] * len(other.line))
        return other

    def with_fixed(self, fixed: Sequence[Pick]) -> "Case":
        """The same needs and sources with other picks fixed."""
        same = self._with(self.sources, self.handling)
        same.fixed = same.held(fixed)
        return same

    def loosened(self) -> "Case":
        """The same needs and sources where nothing is opened, thawed, whole or fixed.

        At least as much of what is asked for can be given so.
        """
        sources = [
            replace(source, frozen=False, sealed_quantity=0) if source.frozen else source
            for source in self.sources
        ]
        return self._with(sources, Handling())

    def _with(self, sources: Iterable[Source], handling: Handling) -> "Case":
        same = Case((), sources, self.now, (), handling)
        same.line = self.line
        return same

    def held(self, fixed: Sequence[Pick]) -> list[tuple[int, Pick]]:
        """The fixed picks that hold, as `fixed` has them."""
        needs = [want.need for want in self.line]
        place = {need.id: index for index, need in enumerate(needs)}
        held = what_holds(fixed, needs, self.sources, self.now, self.handling.piece)
        return sorted(((place[pick.need], pick) for pick in held), key=lambda found: found[0])


Picked: TypeAlias = dict[tuple[int, str, datetime | None], int]
"""Quantities by place in the line, source and thaw."""


class Begun(NamedTuple):
    """What a projection begins with: fixed picks are given, and the rest stands there.

    Attributes:
        parts: what is left of every source, which a projection has to copy.
        given: what was given of fixed picks.
        granted: the same, for each need of the line.
    """

    parts: list[Part]
    given: Picked
    granted: list[int]


def _begun(case: Case) -> Begun:
    parts = [standing(source, case.now, case.handling) for source in case.sources]
    given: Picked = {}
    granted = [0] * len(case.line)
    if not case.fixed:
        return Begun(parts, given, granted)
    family: dict[str, list[Part]] = {}
    for part in parts:
        family.setdefault(part.source.id, []).append(part)
    for index, pick in case.fixed:
        want = case.line[index]
        taken = take_fixed(pick, want.at, want.until, family[pick.source], case.handling)
        granted[index] += note(given, index, taken)
    rest = [part for parts_of in family.values() for part in parts_of if part.quantity]
    return Begun(rest, given, granted)


def note(picked: Picked, index: int, given: Iterable[Given]) -> int:
    """Write down what a need was given; returns how much that is."""
    total = 0
    for source, quantity, thaw_from in given:
        key = (index, source, thaw_from)
        picked[key] = picked.get(key, 0) + quantity
        total += quantity
    return total


def _want(need: Need, now: datetime) -> Want:
    at = max(need.wanted_by, now)
    return Want(need, at, max(need.until, at))
