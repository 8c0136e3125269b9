"""Who is in the house, as a book says it, written beside what was said before."""

from collections.abc import Sequence

from pantry.commands.book.presence import Saying
from pantry.commands.covers_said import menus_follow
from pantry.commands.decisions import ImportBook
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.read.presence import standing
from pantry.records.rows import add, every
from pantry.records.tables import RotaRow, StayRow

_OF_SAYING = {"command", "number", "said_by", "said_at"}


def write_sayings(books: Books, given: Given[ImportBook], said: Sequence[Saying]) -> None:
    """Write what a book says of who comes, who is away and who eats when; menus follow.

    What stands already as the book has it is not said again. Menus that the same book brings keep
    the numbers it gives them: they are written afterwards.
    """
    with menus_follow(books):
        for row in said:
            if _stands(books, row):
                continue
            row.command, row.number = given.id, books.position
            row.said_by = row.said_by or given.person
            add(books.connection, row)
            books.note(_what(row), _thing(row))


def _stands(books: Books, row: Saying) -> bool:
    """Whether the last that was said of the same is what the row says."""
    known = every(books.connection, type(row), house=books.id, **_key(row))
    told = row.model_dump(exclude=_OF_SAYING)
    last = standing(known, _thing)
    return any(each.model_dump(exclude=_OF_SAYING) == told for each in last)


def _key(row: Saying) -> dict[str, str]:
    if isinstance(row, RotaRow):
        return {"dining_table": row.dining_table}
    return {"id": row.id}


def _thing(row: Saying) -> str:
    return row.dining_table if isinstance(row, RotaRow) else row.id


def _what(row: Saying) -> str:
    if isinstance(row, RotaRow):
        return "rota"
    return "stay" if isinstance(row, StayRow) else "away"
