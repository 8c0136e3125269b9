"""A batch's life as its row keeps it, and the house's lives where the item says nothing."""

from datetime import date, datetime
from typing import Any

from pantry.commands.parts import DateMarkPart
from pantry.records.books import Books
from pantry.records.tables import BatchRow
from pantry.refusals import Refusal
from pantry.rules.date_marks import read_date_mark
from pantry.rules.house_time import local_date, write_span
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, DateMark


def as_columns(life: Life) -> dict[str, Any]:
    """A life as the columns of a batch's row."""
    return {
        "usable_until": life.usable_until,
        "good_until": life.good_until,
        "left": None if life.left is None else write_span(life.left),
    }


def dies_first(row: BatchRow) -> tuple[bool, datetime, bool, datetime, datetime, str]:
    """Sorts the batch that dies first before the others, then what is past its best first (AL1)."""
    return (
        row.usable_until is None,
        row.usable_until or row.since,
        row.good_until is None,
        row.good_until or row.since,
        row.since,
        row.id,
    )


def mark_of(
    books: Books, part: DateMarkPart | None, at: datetime, field: str = "body.date_mark.date"
) -> DateMark:
    """The date mark read off a pack, a civil date of the house.

    Raises:
        UnreadableInput: `date_mark_unreadable`, `day_needed`, `year_needed`.
    """
    if part is None:
        return DateMark(DateKind.NONE)
    today: date = local_date(at, books.zone)
    try:
        return read_date_mark(part.date or "", DateKind(part.kind), read_on=today)
    except Refusal as refusal:
        raise refusal.at(field) from refusal
