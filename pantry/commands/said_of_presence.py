"""What was said of who is in the house, taken back: what was said before it stands again."""

from collections.abc import Mapping

from sqlmodel import SQLModel

from pantry.commands.covers_said import menus_follow
from pantry.commands.presence import last_stay, look_at_menus
from pantry.records.books import Books
from pantry.records.rows import every, find, remove
from pantry.records.tables import AwayRow, JournalRow, RotaRow, StayRow
from pantry.refusals import NotNow, declare

SAID_AGAIN_SINCE = declare("said_again_since", "Something else was said of the same since.")

SAID_IN: Mapping[str, tuple[type[StayRow] | type[AwayRow] | type[RotaRow], str, str]] = {
    "end_stay": (StayRow, "id", "stay"),
    "say_away": (AwayRow, "id", "away"),
    "say_stay": (StayRow, "id", "stay"),
    "set_rota": (RotaRow, "dining_table", "rota"),
}
"""By kind: the table its sayings are rows of, the column of the thing, what the feed calls it."""


def stands(books: Books, command: JournalRow) -> bool:
    """Whether what a command said has not been taken back."""
    return find(books.connection, _table(command), house=books.id, command=command.id) is not None


def take_back(books: Books, command: JournalRow) -> None:
    """Forget what a command said; menus follow what was said before it.

    Raises:
        NotNow: `said_again_since`.
    """
    if command.kind not in SAID_IN:
        return
    model, column, what = SAID_IN[command.kind]
    row = find(books.connection, model, house=books.id, command=command.id)
    if row is None:
        return
    thing = {column: getattr(row, column)}
    said = every(books.connection, model, house=books.id, **thing)
    if any(each.number > row.number for each in said):
        raise NotNow(
            SAID_AGAIN_SINCE,
            f"Something else was said of it after {command.at:%Y-%m-%d %H:%M} UTC.",
            "Take back what was said last, or say what is right now.",
            value=command.id,
            field="body.command",
        )
    with menus_follow(books):
        remove(books.connection, model, house=books.id, command=command.id)
    books.note(what, str(thing[column]))
    before = last_stay(books, row.id) if isinstance(row, StayRow) else None
    if before:
        look_at_menus(books, before)


def _table(command: JournalRow) -> type[SQLModel]:
    return SAID_IN[command.kind][0]
