"""What using an item implies: opening starts its opened life, thawing starts its clock (RQ3)."""

from datetime import UTC, datetime

from pantry.rules.allocation import Handling, Source
from pantry.rules.house_time import Span

FOREVER = datetime.max.replace(tzinfo=UTC)
"""Later than any date mark: how long a thing lives whose end nobody knows."""


class Use:
    """One use of the item from `at` through `until`, and what opening or thawing for it means.

    The item's handling is asked only where some part needs the answer, and once at most.
    """

    __slots__ = ("_opened_until", "_thaw_from", "_thawed_until", "at", "handling", "until")

    def __init__(
        self, at: datetime, until: datetime, handling: Handling, thaw_from: datetime | None = None
    ) -> None:
        self.at = at
        self.until = until
        self.handling = handling
        self._thaw_from = thaw_from
        self._thawed_until: datetime | None = None
        self._opened_until: datetime | None = None

    @property
    def opened_until(self) -> datetime:
        """The last instant at which what is opened for this use may be used."""
        if self._opened_until is None:
            rule = self.handling.opened_until
            self._opened_until = FOREVER if rule is None else rule(self.at)
        return self._opened_until

    @property
    def thaw_from(self) -> datetime:
        """When it must be taken out of the freezer for this use."""
        if self._thaw_from is None:
            rule = self.handling.thaw_start
            self._thaw_from = self.at if rule is None else rule(self.at)
        return self._thaw_from

    @property
    def thawed_until(self) -> datetime:
        """The last instant at which what is thawed for this use may be used."""
        if self._thawed_until is None:
            rule = self.handling.thawed_until
            self._thawed_until = FOREVER if rule is None else rule(self.thaw_from)
        return self._thawed_until

    def left_until(self, left: Span) -> datetime:
        """The last usable instant of what had so much of its safety clock left in the freezer."""
        rule = self.handling.left_until
        return FOREVER if rule is None else rule(left, self.thaw_from)


class Part:
    """A quantity of one source in one state; it changes as one projection moves through time.

    Attributes:
        source: what it is a part of, as it stood when the projection began.
        unit: what one unopened container holds; 0: using some of it does nothing to the rest.
        ready: from when it is there; never before the present, so that no thaw starts before it.
        thaw_from: when it was taken out of the freezer, for the rest of what was thawed.
        sealed_until: how long it lived before it was opened, for the rest of what was opened.
        pledged_until: the last instant of the uses its container was opened for.
    """

    __slots__ = (
        "frozen",
        "good_until",
        "opened",
        "pledged_until",
        "quantity",
        "ready",
        "sealed_until",
        "source",
        "thaw_from",
        "unit",
        "usable_until",
    )

    def __init__(self, source: Source, quantity: int, ready: datetime) -> None:
        self.source = source
        self.quantity = quantity
        self.ready = ready
        self.usable_until = source.usable_until or FOREVER
        self.good_until = source.good_until or FOREVER
        self.opened = source.opened
        self.frozen = source.frozen
        self.unit = 0
        self.thaw_from: datetime | None = None
        self.sealed_until: datetime | None = None
        self.pledged_until: datetime | None = None

    def copy(self) -> "Part":
        """The same, to be changed by itself."""
        same = Part.__new__(Part)
        same.source = self.source
        same.quantity = self.quantity
        same.ready = self.ready
        same.usable_until = self.usable_until
        same.good_until = self.good_until
        same.opened = self.opened
        same.frozen = self.frozen
        same.unit = self.unit
        same.thaw_from = self.thaw_from
        same.sealed_until = self.sealed_until
        same.pledged_until = self.pledged_until
        return same


def standing(source: Source, now: datetime, handling: Handling) -> Part:
    """The source before anything is taken from it."""
    ready = source.ready
    part = Part(source, source.quantity, now if ready is None or ready < now else ready)
    if not source.opened and (source.frozen or handling.opened_until is not None):
        sealed = source.sealed_quantity
        part.unit = source.quantity if sealed is None else sealed
    return part


def lives_until(part: Part, use: Use) -> datetime:
    """The last usable instant of what `use` takes from this part.

    What is taken is opened (and thawed) for the use, so that its opened (thawed) life must reach
    the end of the use like any other life (SL2, SL3).
    """
    until = part.usable_until
    if part.frozen:
        until = min(until, use.thawed_until)
        if part.source.left is not None:
            until = min(until, use.left_until(part.source.left))
    if part.unit:
        until = min(until, use.opened_until)
    return until


def can_serve(part: Part, use: Use) -> bool:
    """Whether this part is there for the use, in time to thaw, and usable through it."""
    if part.ready > use.at:
        return can_open_early(part, use)
    if part.frozen and use.thaw_from < part.ready:
        return False
    return lives_until(part, use) >= use.until


def might_serve(part: Part, at: datetime, until: datetime) -> bool:
    """Whether this part could serve a use if opening and thawing for it cost it no life."""
    if part.sealed_until is not None:
        return True
    return part.ready <= at and part.usable_until >= until


def can_open_early(part: Part, use: Use) -> bool:
    """Whether a container that a fixed pick opens later may be opened for this use already.

    It may if what is opened now still lives through every use that the container is opened for.
    """
    if part.sealed_until is None or part.pledged_until is None:
        return False
    there = part.source.ready is None or part.source.ready <= use.at
    lives = min(part.sealed_until, use.opened_until)
    return there and lives >= max(use.until, part.pledged_until)


def draw(part: Part, amount: int, use: Use) -> Part | None:
    """Take an amount out of a part, opening and thawing no more units than it needs.

    Returns:
        The opened or thawed rest of the last unit, a part of its own; None where there is none.
    """
    if part.ready > use.at and part.sealed_until is not None:
        part.ready = use.at
        part.usable_until = min(part.sealed_until, use.opened_until)
    if part.pledged_until is not None:
        part.pledged_until = max(part.pledged_until, use.until)
    used = _content_of_units(part, amount) if part.unit else amount
    part.quantity -= used
    return _rest(part, used - amount, use) if used > amount else None


def _content_of_units(part: Part, amount: int) -> int:
    """What is in the units that are opened for an amount; an odd small one serves a small rest."""
    units, rest = divmod(amount, part.unit)
    odd = part.quantity % part.unit
    last = odd if 0 < rest <= odd else part.unit if rest else 0
    return units * part.unit + last


def _rest(part: Part, quantity: int, use: Use) -> Part:
    """What stays in an opened unit, with the life that opening and thawing leave it."""
    rest = Part(part.source, quantity, use.at)
    rest.usable_until = lives_until(part, use)
    rest.opened = True
    rest.frozen = False
    rest.pledged_until = use.until
    if part.frozen:
        rest.thaw_from = use.thaw_from
    else:
        rest.sealed_until = part.usable_until
    return rest
