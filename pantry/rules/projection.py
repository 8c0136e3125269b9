"""One item's needs projected against its sources, in the order of time (AL1, RQ3)."""

from collections.abc import Callable, Container, Sequence
from datetime import datetime
from typing import TypeAlias

from pantry.rules.allocation import Allocation, Loss, Need, Pick, Source
from pantry.rules.case import Case, note
from pantry.rules.implied_use import FOREVER, Part, Use, standing
from pantry.rules.precedence import is_pressing
from pantry.rules.shelf import Shelf

Buy: TypeAlias = Callable[[Need, int], Source | None]
"""Asked for a need and what it is short of; answers with what can be bought for it, or None."""


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


def settled(case: Case) -> Allocation | None:
    """What its needs get, where none of them takes anything of what the fixed picks leave.

    None takes any of that later, either, once somebody else has taken some of it. Where needs are
    short that is only sure of what is neither opened, thawed nor whole: else None.
    """
    run = project(case, [want.need.quantity for want in case.line])
    alone = run.granted == run.fixed and (case.exact or not run.missing)
    return run.allocation() if alone else None


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
