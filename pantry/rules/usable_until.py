"""Until when something may be used, by what is known about it: one question, no stock (SL1-SL4)."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812 - the question has a `date` of its own
from datetime import datetime
from zoneinfo import ZoneInfo

from pantry.refusals import UnreadableInput, declare
from pantry.rules import shelf_life
from pantry.rules.house_time import local_date, start_of_day, zone
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, DateMark

HALF_SAID = declare("half_said", "One half of a pair was given without the other.")
TWO_ORIGINS = declare("two_origins", "What was made here carries no date mark.")
BEFORE_MADE = declare("before_made", "Something happened to food before it was made.")
THAWED_BEFORE_FROZEN = declare("thawed_before_frozen", "Food was thawed before it was frozen.")


@dataclass(frozen=True, slots=True)
class _Happening:
    """What happened on a day, and what it made of the life until then."""

    day: Date
    name: str
    apply: Callable[[Life], Life]


def answer(
    zone_name: str,
    *,
    date_kind: DateKind | None = None,
    date: Date | None = None,
    opened: Date | None = None,
    opened_life_days: int | None = None,
    frozen: Date | None = None,
    thawed: datetime | None = None,
    thawed_life_hours: int | None = None,
    made: Date | None = None,
    life_days: int | None = None,
) -> Life:
    """The life of one thing in a house of this time zone, what happened applied in order of time.

    What was thawed and never frozen here was bought frozen.

    Raises:
        UnreadableInput: `zone_unknown`, `life_too_short`, `life_too_short_in_hours`, or what
            contradicts itself: `half_said`, `two_origins`, `before_made`, `thawed_before_frozen`.
        UnsafeFood: `frozen_too_late`.
        MissingFact: `life_unknown`.
    """
    house = zone(zone_name)
    kind = date_kind or DateKind.NONE
    _refuse_half("date_kind", "date", first=kind is not DateKind.NONE, second=date is not None)
    _refuse_half(
        "opened", "opened_life_days", first=bool(opened), second=opened_life_days is not None
    )
    _refuse_half("made", "life_days", first=bool(made), second=life_days is not None)
    if thawed_life_hours is not None:
        _refuse_half("thawed", "thawed_life_hours", first=bool(thawed), second=True)
    if date and made:
        raise _two_origins(date, made)
    happenings = []
    if made:
        happenings.append(_made(made, life_days, house))
    if opened:
        happenings.append(_opened(opened, opened_life_days, house))
    if frozen:
        happenings.append(_frozen(frozen, house))
    if thawed:
        happenings.append(_thawed(thawed, thawed_life_hours, house))
    bought_frozen = bool(thawed) and not frozen
    return _after_all(
        shelf_life.of_mark(DateMark(kind, date), house, frozen=bought_frozen), happenings
    )


def _after_all(life: Life, happenings: list[_Happening]) -> Life:
    """The life after everything, by day; on one day in the order made, opened, frozen, thawed."""
    by_day = sorted(happenings, key=lambda happening: happening.day)
    days = {happening.name: happening.day for happening in happenings}
    if "made" in days and by_day[0].name != "made":
        raise _out_of_order(BEFORE_MADE, by_day[0], f"made on {days['made']}")
    if "frozen" in days and "thawed" in days and days["thawed"] < days["frozen"]:
        thawing = next(happening for happening in by_day if happening.name == "thawed")
        raise _out_of_order(THAWED_BEFORE_FROZEN, thawing, f"frozen on {days['frozen']}")
    for happening in by_day:
        life = happening.apply(life)
    return life


def _made(day: Date, life_days: int | None, house: ZoneInfo) -> _Happening:
    at = start_of_day(day, house)

    def apply(_: Life) -> Life:
        return shelf_life.made(at, life_days, Dating.COOKED, (), house)

    return _Happening(day, "made", apply)


def _opened(day: Date, life_days: int | None, house: ZoneInfo) -> _Happening:
    at = start_of_day(day, house)
    return _Happening(day, "opened", lambda life: shelf_life.opened(life, at, life_days, house))


def _frozen(day: Date, house: ZoneInfo) -> _Happening:
    at = start_of_day(day, house)
    return _Happening(day, "frozen", lambda life: shelf_life.frozen(life, at, None, house))


def _thawed(at: datetime, life_hours: int | None, house: ZoneInfo) -> _Happening:
    day = local_date(at, house)
    return _Happening(day, "thawed", lambda life: shelf_life.thawed(life, at, life_hours, house))


def _refuse_half(one: str, other: str, *, first: bool, second: bool) -> None:
    if first != second:
        given, missing = (one, other) if first else (other, one)
        raise UnreadableInput(
            HALF_SAID,
            f"{given} was given without {missing}.",
            f"Give {missing} too, or neither.",
            value=given,
            field=missing,
        )


def _two_origins(date: Date, made: Date) -> UnreadableInput:
    return UnreadableInput(
        TWO_ORIGINS,
        f"It has a date mark of {date} and was made here on {made}.",
        "Ask for what was bought and for what was made of it one by one.",
        value=str(date),
        field="date",
    )


def _out_of_order(code: str, happening: _Happening, other: str) -> UnreadableInput:
    return UnreadableInput(
        code,
        f"It was {happening.name} on {happening.day} and {other}.",
        "Check the two dates; what was thawed and frozen again is thrown away.",
        value=str(happening.day),
        field=happening.name,
    )
