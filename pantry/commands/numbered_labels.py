"""Numbered labels: numbers reserved before they are printed, and put on a batch by one scan."""

from sqlalchemy import func, select

from pantry.commands import naming
from pantry.commands.decisions import ReserveLabels
from pantry.commands.facts import BindLabel, PrintLabels
from pantry.commands.given import Given
from pantry.commands.labels import set_free
from pantry.records.books import Books
from pantry.records.read.labels import carrier
from pantry.records.rows import add, change, every, find, remove, table
from pantry.records.tables import (
    JournalRow,
    LabelRangeRow,
    NumberedLabelRow,
    PrintedLabelRow,
)
from pantry.refusals import UnreadableInput, declare
from pantry.rules.label_numbers import FIRST, as_printed, number_in

LABEL_NOT_NUMBERED = declare("label_not_numbered", "What is put on a batch is no numbered label.")


def bind(books: Books, given: Given[BindLabel]) -> None:
    """From now on the batch is found by this label too.

    Raises:
        NotThere: `batch_unknown`.
        NotNow: `label_taken`.
        UnreadableInput: `label_not_numbered`, `label_misread`.
    """
    batch = naming.batch(books, given.body.batch)
    label = _printed(given.body.label)
    holder = carrier(books.connection, books.id, label)
    if holder is not None and holder.id == batch.id:
        return
    set_free(books, label)
    row = NumberedLabelRow(
        house=books.id, label=label, batch=batch.id, command=given.id, at=given.at
    )
    add(books.connection, row)
    books.note("batch", batch.id)


def _printed(written: str) -> str:
    """A numbered label as it is printed."""
    label = as_printed(written) or written.strip()
    if number_in(label) is None:
        raise UnreadableInput(
            LABEL_NOT_NUMBERED,
            f"{written!r} is no numbered label of this house.",
            "Scan a label that was printed with a number, such as 1001-9.",
            value=written,
            field="body.label",
        )
    return label


def is_bound(books: Books, row: JournalRow) -> bool:
    """Whether a label that a command put on a batch is still on it."""
    return bool(every(books.connection, NumberedLabelRow, house=books.id, command=row.id))


def take_off(books: Books, row: JournalRow) -> None:
    """Take a label off a batch again."""
    for bound in every(books.connection, NumberedLabelRow, house=books.id, command=row.id):
        remove(books.connection, NumberedLabelRow, house=books.id, label=bound.label)
        books.note("batch", bound.batch)


def reserve(books: Books, given: Given[ReserveLabels]) -> None:
    """Numbers that nobody else prints, after all that were ever reserved or found on a jar."""
    first = max(FIRST, _highest_reserved(books) + 1, _highest_bound(books) + 1)
    row = LabelRangeRow(
        house=books.id,
        first=first,
        last=first + given.body.count - 1,
        command=given.id,
        person=given.person,
        at=given.at,
    )
    add(books.connection, row)
    books.note("labels", given.id)


def _highest_reserved(books: Books) -> int:
    ranges = table(LabelRangeRow).c
    highest = select(func.max(ranges.last)).where(ranges.house == books.id)
    return books.connection.execute(highest).scalar() or 0


def _highest_bound(books: Books) -> int:
    """Labels may have been printed by a house whose last records were lost."""
    rows = every(books.connection, NumberedLabelRow, house=books.id)
    return max((number_in(row.label) or 0 for row in rows), default=0)


def note_printed(books: Books, given: Given[PrintLabels]) -> None:
    """Labels were printed for these batches.

    Raises:
        NotThere: `batch_unknown`.
    """
    for name in given.body.batches:
        batch = naming.batch(books, name, "body.batches")
        of = {"house": books.id, "batch": batch.id}
        if find(books.connection, PrintedLabelRow, **of) is None:
            add(books.connection, PrintedLabelRow(**of, at=given.at))
        else:
            change(books.connection, PrintedLabelRow, of, at=given.at)
        books.note("batch", batch.id)
