"""How long a batch may be used, and what opening, freezing, thawing, cooking make of it (SL1-SL4).

Every rule takes the life of the parent and gives that of the child. A life counts calendar days of
the house, the day it begins being day 1, or hours where its source counts hours; where both are
given, the earlier ends it. No child outlives the safety of its parent, but for freezing, which
stops the clock and never winds it back.

Local codes, the maker's label and licensed practice come first.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from pantry.refusals import MissingFact, UnreadableInput, UnsafeFood, declare
from pantry.rules.house_time import Span, end_of_day, last_day, local_date, write_instant
from pantry.rules.menu import Dating
from pantry.rules.stock import DateKind, DateMark

FROZEN_TOO_LATE = declare("frozen_too_late", "Food is frozen only while it may still be used.")
MADE_OF_PAST_FOOD = declare("made_of_past_food", "An ingredient was past its usable until.")
LIFE_UNKNOWN = declare("life_unknown", "Nobody has said how long this keeps.")
LIFE_TOO_SHORT_IN_HOURS = declare("life_too_short_in_hours", "A life is at least one hour.")


@dataclass(frozen=True, slots=True)
class Life:
    """The two answers for a batch (SL2), with what is kept of them in the freezer (SL3).

    Attributes:
        usable_until: the last instant it may be used (safety), in UTC; None: no limit is known.
        good_until: the last instant of full quality, in UTC; None: no limit is known.
        frozen: it lies in the freezer, where the safety clock stands still.
        left: what was left of the safety clock when it was frozen; None: no limit was known. A
            clock that ends with a day of the house counts days, and the day of thawing is the first
            of them; any other counts exact time.
    """

    usable_until: datetime | None = None
    good_until: datetime | None = None
    frozen: bool = False
    left: Span | None = None


def usable_at(life: Life, instant: datetime) -> bool:
    """Whether it may still be used at this instant; the last instant is included (SL2)."""
    return life.usable_until is None or instant <= life.usable_until


def flagged_at(life: Life, instant: datetime) -> bool:
    """Whether it is past its best and not past use: counted, flagged, a person decides (SL2)."""
    past_its_best = life.good_until is not None and instant > life.good_until
    return past_its_best and usable_at(life, instant)


def of_mark(mark: DateMark, zone: ZoneInfo, *, frozen: bool = False) -> Life:
    """The life that a date mark gives: use-by is safety, best-before is quality (SL1, SL2).

    `frozen` is for what was bought frozen: its mark holds in the freezer, and thawing ends it.
    """
    end = end_of_day(mark.date, zone) if mark.date else None
    if mark.kind is DateKind.USE_BY:
        return Life(usable_until=end, frozen=frozen)
    return Life(good_until=end if mark.kind is DateKind.BEST_BEFORE else None, frozen=frozen)


def opened(
    parent: Life,
    at: datetime,
    life_days: int | None,
    zone: ZoneInfo,
    *,
    life_hours: int | None = None,
) -> Life:
    """The life of what was opened at this instant: the earlier of the parent's and its own (SL3).

    Without a life of its own, opening changes nothing. What is opened in the freezer has at most
    its opened life left when it is thawed.

    Raises:
        UnreadableInput: `life_too_short`, `life_too_short_in_hours`.
    """
    return _ended(parent, at, _end(at, life_days, life_hours, zone), zone)


def vacuum_packed(
    parent: Life,
    at: datetime,
    life_days: int | None,
    zone: ZoneInfo,
    *,
    life_hours: int | None = None,
) -> Life:
    """The life of what was vacuum packed: its own from packing, never past the parent's (SL3).

    Taking the air out lengthens quality, not by itself safety (Food Standards Agency, The safety
    and shelf-life of vacuum and modified atmosphere packed chilled foods, December 2020).

    Raises:
        MissingFact: `life_unknown`.
        UnreadableInput: `life_too_short`, `life_too_short_in_hours`.
    """
    end = _end(at, life_days, life_hours, zone)
    if end is None:
        raise _no_life("vacuum packed")
    return _ended(parent, at, end, zone)


def frozen(parent: Life, at: datetime, frozen_life_days: int | None, zone: ZoneInfo) -> Life:
    """The life of what was frozen at this instant: the date mark gives way, the clock stops (SL3).

    Only quality runs on, for the frozen life; what was past its best stays past it. Freezing what
    is frozen changes nothing.

    Source: FDA Food Code 2022, 3-501.17, as explained by the North Carolina date-marking sheet.

    Raises:
        UnsafeFood: `frozen_too_late`.
        UnreadableInput: `life_too_short`.
    """
    if parent.frozen:
        return parent
    if parent.usable_until and not usable_at(parent, at):
        raise UnsafeFood(
            FROZEN_TOO_LATE,
            f"It could be used until {write_instant(parent.usable_until)} and was frozen at "
            f"{write_instant(at)}.",
            "Put it on hold; it must not be used.",
            value=write_instant(at),
        )
    left = _left(parent.usable_until, at, zone) if parent.usable_until else None
    good_until = parent.good_until
    if good_until is None or at <= good_until:
        good_until = _end(at, frozen_life_days, None, zone)
    return Life(good_until=good_until, frozen=True, left=left)


def thawed(
    parent: Life,
    at: datetime,
    thawed_life_hours: int | None,
    zone: ZoneInfo,
    thaw_time: timedelta = timedelta(0),
    *,
    thawing_counts: bool = False,
) -> Life:
    """The life of what was taken out of the freezer at this instant (SL3).

    From the end of thawing it has the lesser of what was left and the thawed life.

    Args:
        parent: the life in the freezer.
        at: when it was taken out.
        thawed_life_hours: hours from the end of thawing; None: only what was left counts.
        zone: of the house.
        thaw_time: how long thawing takes, by size.
        thawing_counts: what was left runs from `at`, as FDA Food Code 2022, 3-501.17, counts.

    Raises:
        MissingFact: `life_unknown`, where nothing was left to count and no thawed life is given.
        UnreadableInput: `life_too_short_in_hours`.
    """
    through = at + thaw_time
    ends = (
        parent.usable_until,
        _end(through, None, thawed_life_hours, zone),
        resumed(parent.left, at if thawing_counts else through, zone) if parent.left else None,
    )
    usable_until = _earliest(ends)
    if usable_until is None:
        raise _no_life("thawed")
    return Life(usable_until, parent.good_until)


def made(
    at: datetime,
    life_days: int | None,
    dating: Dating,
    ingredients: Iterable[Life],
    zone: ZoneInfo,
    *,
    life_hours: int | None = None,
    left_overs: Iterable[Life] = (),
) -> Life:
    """The life of what was made at this instant (SL4).

    Cooked or preserved: its own life, whatever its ingredients had left. Assembled: the earliest of
    its own and theirs. Left-overs keep the day they were first cooked: `at` is then, and what is
    made of `left_overs` never outlives them, cooked or not (FDA Food Code 2022, 3-501.17(C)).

    Raises:
        UnsafeFood: `made_of_past_food`, where an ingredient was not usable at `at`.
        MissingFact: `life_unknown`, where something cooked or preserved has no life of its own.
        UnreadableInput: `life_too_short`, `life_too_short_in_hours`.
    """
    fresh, again = tuple(ingredients), tuple(left_overs)
    _refuse_past_food((*fresh, *again), at)
    own = _end(at, life_days, life_hours, zone)
    if dating is Dating.ASSEMBLED:
        parts = (*fresh, *again)
        quality = _earliest(part.good_until for part in parts)
    elif own is None:
        raise _no_life(dating.value)
    else:
        parts, quality = again, None
    return Life(_earliest((own, *(_thawing_now(part, at, zone) for part in parts))), quality)


def _refuse_past_food(ingredients: Iterable[Life], at: datetime) -> None:
    for part in ingredients:
        if part.usable_until and not usable_at(part, at):
            end = write_instant(part.usable_until)
            raise UnsafeFood(
                MADE_OF_PAST_FOOD,
                f"An ingredient could be used until {end}, and this was made at "
                f"{write_instant(at)}.",
                "Put it on hold; it must not be used.",
                value=end,
            )


def _ended(parent: Life, at: datetime, end: datetime | None, zone: ZoneInfo) -> Life:
    """The parent's life, ended at `end` if that is earlier; in the freezer, what is left of it."""
    if end is None:
        return parent
    if not parent.frozen:
        return replace(parent, usable_until=_earliest((parent.usable_until, end)))
    if parent.left:
        end = min(end, resumed(parent.left, at, zone))
    return replace(parent, left=_left(end, at, zone))


def _thawing_now(life: Life, at: datetime, zone: ZoneInfo) -> datetime | None:
    """The end of an ingredient's safety if it leaves the freezer at `at`, where it lies there."""
    return _earliest((life.usable_until, resumed(life.left, at, zone) if life.left else None))


def _left(until: datetime, at: datetime, zone: ZoneInfo) -> Span:
    """What is left at `at` of a clock that ends at `until`: days with `at`'s own, or exact time."""
    last = local_date(until, zone)
    if until == end_of_day(last, zone):
        return Span(days=(last - local_date(at, zone)).days + 1)
    return Span(exact=until - at)


def resumed(left: Span, at: datetime, zone: ZoneInfo) -> datetime:
    """The end of a clock of which so much is left at `at`; days count from `at`'s own (SL3)."""
    if left.days:
        return end_of_day(last_day(local_date(at, zone), left.days), zone)
    return at + left.exact


def _end(
    at: datetime, life_days: int | None, life_hours: int | None, zone: ZoneInfo
) -> datetime | None:
    """The last instant of a life that begins at `at`; None where no life is given."""
    if life_hours is not None and life_hours < 1:
        raise UnreadableInput(
            LIFE_TOO_SHORT_IN_HOURS,
            f"A life of {life_hours} hours ends before it begins.",
            "Give at least 1 hour.",
            value=str(life_hours),
        )
    by_days = (
        None if life_days is None else end_of_day(last_day(local_date(at, zone), life_days), zone)
    )
    by_hours = None if life_hours is None else at + timedelta(hours=life_hours)
    return _earliest((by_days, by_hours))


def _earliest(instants: Iterable[datetime | None]) -> datetime | None:
    return min((instant for instant in instants if instant is not None), default=None)


def _no_life(what: str) -> MissingFact:
    return MissingFact(
        LIFE_UNKNOWN,
        f"How long it keeps once {what} is not known.",
        "Give its life, or take the one of the house's food-safety policy.",
        value=what,
    )
