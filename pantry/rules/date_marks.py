"""Date marks as people read them off a pack (SL1).

A best-before may name a month or a year only and ends with it: Regulation (EU) No 1169/2011, Annex
X, 1(c), wants day and month where food keeps up to three months, month and year up to eighteen, the
year alone beyond. A use-by always names its day.
"""

import calendar
import re
from datetime import date, timedelta

from pantry.refusals import UnreadableInput, declare
from pantry.rules.stock import DateKind, DateMark

DATE_MARK_UNREADABLE = declare("date_mark_unreadable", "The date mark cannot be read.")
DAY_NEEDED = declare("day_needed", "A use-by names its day.")
YEAR_NEEDED = declare("year_needed", "A use-by so far ahead, or already past, needs its year.")

_SHORT_LIFE = timedelta(days=92)
"""Three months at most: what keeps longer carries its year (Annex X, 1(c))."""

_YEARS_TO_A_LEAP_DAY = 8

_MONTH_NAMES = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]
_MONTHS = {
    word: number for number, name in enumerate(_MONTH_NAMES, start=1) for word in (name, name[:3])
} | {"sept": 9}

_DAY = re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{2})-(?P<day>[0-9]{2})")
_MONTH = re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{2})")
_MONTH_OF_LABEL = re.compile(r"(?P<month>[0-9]{1,2})/(?P<year>[0-9]{4})")
_YEAR = re.compile(r"(?P<year>[0-9]{4})")
_IN_WORDS = re.compile(r"(?:(?P<day>[0-9]{1,2}) )?(?P<word>[a-z]+)\.?(?: (?P<year>[0-9]{4}))?")


def read_date_mark(text: str, kind: DateKind, *, read_on: date) -> DateMark:
    """The date mark that a person reads off a pack, as the last civil date it allows.

    `2027-03-20`, `20 Mar 2027`; for a best-before also the month (`2027-03`, `03/2027`, `March
    2027`) or the year (`2027`), which end with their last day. A day and month (`28 Feb`) mean the
    next such date, the day of reading included. Month names are English. Digits alone such as
    `03/04/27` say different days in different countries and are refused.

    Raises:
        UnreadableInput: `date_mark_unreadable`; `day_needed`, for a use-by without its day;
            `year_needed`, for a use-by without its year that is not within three months.
    """
    plain = " ".join(text.casefold().split())
    if kind is DateKind.NONE:
        if plain:
            raise _unreadable(text, "Leave the date empty, or say use-by or best-before.")
        return DateMark(DateKind.NONE)
    year, month, day = _parts(plain, text)
    try:
        if year is None:
            return DateMark(kind, _next(month, day, kind, text, read_on))
        if day is None:
            return DateMark(kind, _last_of(year, month, kind, text))
        return DateMark(kind, date(year, month, day))
    except ValueError as error:
        raise _unreadable(text, "The calendar has no such date; read the pack again.") from error


def _parts(plain: str, text: str) -> tuple[int | None, int, int | None]:
    """Year, month and day as written; month 12 stands for a whole year."""
    for form in (_DAY, _MONTH, _MONTH_OF_LABEL, _YEAR, _IN_WORDS):
        match = form.fullmatch(plain)
        if match:
            found = match.groupdict()
            month = _MONTHS.get(found["word"]) if "word" in found else int(found.get("month") or 12)
            day, year = found.get("day"), found.get("year")
            if month is not None and (day or year):
                return int(year) if year else None, month, int(day) if day else None
    raise _unreadable(text, "Write 2027-03-20, 20 Mar 2027, 2027-03 or 2027.")


def _last_of(year: int, month: int, kind: DateKind, text: str) -> date:
    """The last day of a month that a best-before names."""
    if kind is DateKind.USE_BY:
        raise UnreadableInput(
            DAY_NEEDED,
            f"{text!r} does not name the day, and a use-by does.",
            "Read the day off the pack, or enter it as a best-before.",
            value=text,
        )
    return date(year, month, calendar.monthrange(year, month)[1])


def _next(month: int, day: int | None, kind: DateKind, text: str, read_on: date) -> date:
    """The next date of this day and month from the day it is read."""
    for year in range(read_on.year, read_on.year + _YEARS_TO_A_LEAP_DAY + 1):
        found = _date_or_none(year, month, day or 0)
        if found and found >= read_on:
            if kind is DateKind.USE_BY and found - read_on > _SHORT_LIFE:
                raise _year_needed(text, read_on)
            return found
    raise _unreadable(text, "The calendar has no such date; read the pack again.")


def _date_or_none(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _year_needed(text: str, read_on: date) -> UnreadableInput:
    return UnreadableInput(
        YEAR_NEEDED,
        f"A use-by of {text!r}, read on {read_on}, is past or far ahead.",
        "If the date is past, refuse the goods; otherwise enter the year as well.",
        value=text,
    )


def _unreadable(text: str, todo: str) -> UnreadableInput:
    return UnreadableInput(DATE_MARK_UNREADABLE, f"{text!r} is no date mark.", todo, value=text)
