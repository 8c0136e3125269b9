"""One item's needs projected against its sources, in the order of time (AL1, RQ3)."""

from collections.abc import Callable, Container, Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple, TypeAlias

from pantry.rules.allocation import Allocation, Handling, Loss, Need, Pick, Source
from pantry.rules.fixed_picks import take_fixed, what_holds
from pantry.rules.implied_use import FOREVER, Part, Use, standing
from pantry.rules.precedence import is_pressing
from pantry.rules.shelf import Given, Shelf

Buy: TypeAlias = Callable[[Need, int], Source | None]
"""Asked for a need and what it is short of; answers with what can be bought for it, or None."""


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

    def settled(self) -> Allocation | None:
        """What its needs get, where none of them takes anything of what the fixed picks leave.

        None takes any of that later, either, once somebody else has taken some of it. Where needs
        are short that is only sure of what is neither opened, thawed nor whole: else None.
        """
        run = project(self, [want.need.quantity for want in self.line])
        alone = run.granted == run.fixed and (self.exact or not run.missing)
        return run.allocation() if alone else None

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


class Run:
    """What came of one projection of a case.

    Attributes:
        shelf: as it stands after the last need that was gone through.
        given: for each need of the line, the quantity by source and thaw.
        granted: for each need of the line, all it got, fixed picks included.
        fixed: for each need of the line, what it got of fixed picks.
        missing: how much of what was asked could not be given.
        place: how many needs of the line have been gone through.
    """

    __slots__ = ("case", "fixed", "given", "granted", "missing", "place", "shelf")

    def __init__(self, case: Case) -> None:
        parts, given, self.fixed = case.begun()
        self.case = case
        self.given = dict(given)
        self.granted = list(self.fixed)
        self.missing = 0
        self.place = 0
        self.shelf = Shelf(case.now, case.handling.piece)
        for part in parts:
            self.shelf.put(part.copy())

    def go_on(
        self, amounts: Sequence[int], upto: int | None = None, buy: Buy | None = None
    ) -> None:
        """Give each need, in the order of time, up to the amount named for it; see `project`.

        Once nothing stands there and nothing is to come, nobody need be gone through.

        Args:
            amounts: for each need of the line, with what is fixed for it.
            upto: the place of the first need that is left for later; None: all of them are served.
            buy: asked where a need that can still be bought is short.
        """
        case, line = self.case, self.case.line
        upto = len(line) if upto is None else upto
        for index in range(self.place, upto):
            short = amounts[index] - self.granted[index]
            if short <= 0:
                continue
            want = line[index]
            if buy is None and self.shelf.is_spent(want.at):
                self.missing += self._lacking(amounts, index, upto)
                break
            use = Use(want.at, want.until, case.handling)
            short -= self._give(index, short, use)
            if short and buy is not None and not is_pressing(want.need, case.now):
                short -= self._buy(index, use, short, buy)
            self.missing += short
        self.place = upto

    def with_more(self, source: Source) -> "Run":
        """The same with one source more, which is there for the needs that are still to come."""
        same = Run.__new__(Run)
        same.case = self.case.with_more([source])
        same.fixed = self.fixed
        same.given = dict(self.given)
        same.granted = list(self.granted)
        same.missing = self.missing
        same.place = self.place
        same.shelf = self.shelf.copy()
        same.shelf.put(standing(source, same.case.now, same.case.handling))
        return same

    def short(self) -> dict[str, int]:
        """What each need is short of that is, by its id, in the order of the line."""
        return {
            want.need.id: want.need.quantity - granted
            for want, granted in zip(self.case.line, self.granted, strict=True)
            if granted < want.need.quantity
        }

    def given_to(self, needs: Container[str]) -> dict[str, dict[str, int]]:
        """What these needs were given: the quantities by need and source."""
        line = self.case.line
        found: dict[str, dict[str, int]] = {}
        for (index, source, _), quantity in self.given.items():
            need = line[index].need.id
            if need in needs:
                of_need = found.setdefault(need, {})
                of_need[source] = of_need.get(source, 0) + quantity
        return found

    def picks(self) -> tuple[Pick, ...]:
        """What was given, in the order of the line."""
        line = self.case.line
        in_order = sorted(self.given.items(), key=_place)
        return tuple(
            Pick(line[index].need.id, source, quantity, thaw_from)
            for (index, source, thaw_from), quantity in in_order
        )

    def allocation(self) -> Allocation:
        """The answer: picks, what is short, and what becomes of the rest."""
        over = max((want.until for want in self.case.line), default=self.case.now)
        rest = list(self.shelf.parts())
        lost = tuple(
            Loss(part.source.id, part.quantity, part.usable_until)
            for part in rest
            if part.usable_until < over
        )
        left = tuple(_left(part, self.case.now) for part in rest if part.usable_until >= over)
        return Allocation(self.picks(), self.short(), left, lost)

    def _give(self, index: int, amount: int, use: Use) -> int:
        """Give a need up to so much from the shelf; returns how much that is."""
        found = note(self.given, index, self.shelf.give(amount, use))
        self.granted[index] += found
        return found

    def _buy(self, index: int, use: Use, short: int, buy: Buy) -> int:
        """Buy for a need until it is covered, nobody sells, or what is sold does not help."""
        case = self.case
        total = 0
        while short > total:
            source = buy(case.line[index].need, short - total)
            if source is None:
                break
            case.add(source)
            self.shelf.put(standing(source, case.now, case.handling))
            gained = self._give(index, short - total, use)
            if not gained:
                break
            total += gained
        return total

    def _lacking(self, amounts: Sequence[int], first: int, upto: int) -> int:
        """What is lacking of the amounts from one place of the line to before another."""
        wanted = zip(amounts[first:upto], self.granted[first:upto], strict=True)
        return sum(amount - granted for amount, granted in wanted if amount > granted)


def project(case: Case, amounts: Sequence[int], buy: Buy | None = None) -> Run:
    """Give each need of the line, in the order of time, up to the amount named for it.

    Args:
        case: what is projected.
        amounts: for each need of the line, with what is fixed for it.
        buy: asked where a need that can still be bought is short; what it answers is added to the
            case's sources.
    """
    run = Run(case)
    run.go_on(amounts, buy=buy)
    return run


def _place(given: tuple[tuple[int, str, datetime | None], int]) -> int:
    return given[0][0]


def _left(part: Part, now: datetime) -> Source:
    """What is left of a part, as a source; an untouched one is the source itself."""
    source = part.source
    if part.quantity == source.quantity:
        return source
    return Source(
        source.kind,
        source.id,
        source.item,
        part.quantity,
        None if part.usable_until == FOREVER else part.usable_until,
        source.good_until,
        source.since,
        part.ready if part.ready > now else None,
        source.sealed_quantity if part.pledged_until is None else 0,
        part.opened,
        part.frozen,
        source.left if part.frozen else None,
    )
