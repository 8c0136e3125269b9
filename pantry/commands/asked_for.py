"""What the back door asks for, until it comes or somebody has seen to it."""

from datetime import datetime

from pantry.records.books import Books
from pantry.records.questions import close, reopen
from pantry.records.rows import change, every, find, remove
from pantry.records.tables import AskedForRow, ItemRow, JournalRow

KIND = "run_out"
"""The chef's question about an item that has run out."""


def came(books: Books, item: str, at: datetime) -> None:
    """Some of an item is there: whoever found none of it before asks no more."""
    asked = [row for row in open_of(books, item) if row.at <= at]
    if asked:
        see_to(books, asked, "the house", "it came")


def open_of(books: Books, item: str) -> list[AskedForRow]:
    """Every open asking for an item."""
    return every(books.connection, AskedForRow, house=books.id, item=item, closed_at=None)


def see_to(books: Books, asked: list[AskedForRow], person: str, answer: str) -> None:
    """Close what was asked for, and the chef's question with the last of an item."""
    for row in asked:
        _set_closed(books, row, books.now, person)
    for item in {row.item for row in asked if row.item}:
        if not open_of(books, item):
            close(books, KIND, item, answer, person)


def open_again(books: Books, command: str) -> None:
    """What a command had closed is asked for again, where the command is taken back."""
    for row in every(books.connection, AskedForRow, house=books.id, last_command=command):
        if row.closed_at:
            _set_closed(books, row, None, None)
            if row.item:
                reopen(books, KIND, row.item, command)


def take_back(books: Books, command: JournalRow, person: str) -> None:
    """Whoever asked takes it back; what nobody counts is at the level it was at before."""
    row = find(books.connection, AskedForRow, house=books.id, id=command.id)
    if row is None:
        return
    remove(books.connection, AskedForRow, house=books.id, id=command.id)
    books.note("asked_for", command.id)
    if row.item is None:
        return
    if not open_of(books, row.item):
        close(books, KIND, row.item, "it was taken back", person)
    if row.level_before:
        key = {"house": books.id, "id": row.item, "level": "out"}
        change(books.connection, ItemRow, key, level=row.level_before)
        books.note("item", row.item)
        books.settings_changed()


def stands(books: Books, command: JournalRow) -> bool:
    """Whether what a command asked for, or closed, still stands so."""
    column = "last_command" if command.kind == "tick_off" else "id"
    rows = every(books.connection, AskedForRow, house=books.id, **{column: command.id})
    return any(row.closed_at for row in rows) if command.kind == "tick_off" else bool(rows)


def _set_closed(books: Books, row: AskedForRow, at: datetime | None, person: str | None) -> None:
    change(
        books.connection,
        AskedForRow,
        {"house": books.id, "id": row.id},
        closed_at=at,
        closed_by=person,
        version=row.version + 1,
        last_command=books.command,
    )
    books.note("asked_for", row.id)
