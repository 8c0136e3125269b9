"""A house book as if it were of another week: every date in it moved by whole weeks.

Weekdays, and with them deliveries and cut-offs, stay what they are. Seasons have no year and stay.
"""

import calendar
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from pantry.commands.book.sheets import Cells, HouseBook, Sheet

DATES: Mapping[str, tuple[str, ...]] = {
    "batches": ("date", "state_date"),
    "closures": ("date", "instead", "to"),
    "constraints": ("from", "to"),
    "services": ("date",),
    "choices": ("date",),
    "orders": ("delivery_date",),
    "harvest": ("from", "to"),
    "stays": ("from", "to", "said_at"),
    "away": ("from", "to", "said_at"),
    "rota": ("date",),
}
"""The columns of each sheet that hold dates."""

_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ].+")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")
_YEAR = re.compile(r"[0-9]{4}")


def weeks_between(book_day: date, today: date) -> int:
    """Whole weeks from the day a book was written for to the same weekday nearest to today."""
    return round((today - book_day).days / 7)


def shifted(book: HouseBook, weeks: int, book_day: date) -> HouseBook:
    """The book with every date so many weeks later.

    A best-before that names a month or a year alone (Regulation (EU) No 1169/2011, Annex X, 1(c))
    becomes another month or year: one that had ended on the book's day has ended on the new one,
    one that had not has not.

    Args:
        book: as it was read.
        weeks: how many; below nothing for earlier.
        book_day: the day the book was written for.
    """
    sheets = {
        name: _sheet(sheet, DATES.get(name, ()), weeks, book_day)
        for name, sheet in book.sheets.items()
    }
    return replace(book, sheets=sheets)


def days_moved(text: str, weeks: int) -> str:
    """A text with every date in it so many weeks later."""
    later = timedelta(weeks=weeks)
    return _DAY.sub(lambda day: (date.fromisoformat(day[0]) + later).isoformat(), text)


def _sheet(sheet: Sheet, columns: tuple[str, ...], weeks: int, book_day: date) -> Sheet:
    def moved(cells: Cells) -> Cells:
        dates = {name: _cell(cells[name], weeks, book_day) for name in columns if name in cells}
        return {**cells, **dates}

    return replace(sheet, rows=tuple((number, moved(cells)) for number, cells in sheet.rows))


def _cell(text: str, weeks: int, book_day: date) -> str:
    """A date, month or year so many weeks later; anything else is for the import to judge."""
    later = timedelta(weeks=weeks)
    if _MOMENT.fullmatch(text):
        return days_moved(text, weeks)
    if _DAY.fullmatch(text):
        return (date.fromisoformat(text) + later).isoformat()
    if _MONTH.fullmatch(text):
        year, month = int(text[:4]), int(text[5:])
        end = date(year, month, calendar.monthrange(year, month)[1])
        return f"{_of_a_mark(end, later, 1, book_day):%Y-%m}"
    if _YEAR.fullmatch(text):
        return f"{_of_a_mark(date(int(text), 12, 31), later, 12, book_day):%Y}"
    return text


def _of_a_mark(end: date, later: timedelta, months: int, book_day: date) -> date:
    """A day of the month (`months` 1) or year (12) that a mark with this last day moves to."""
    moved = end + later
    next_day = moved + timedelta(days=1)
    is_last_day = next_day.day == 1 and (months == 1 or next_day.month == 1)
    if end >= book_day or is_last_day:
        return moved
    first = moved.replace(day=1, month=moved.month if months == 1 else 1)
    return first - timedelta(days=1)
