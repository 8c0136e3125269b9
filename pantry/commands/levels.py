"""How much there is of what nobody counts: plenty, low or out (MS3)."""

from datetime import datetime

from pantry.commands import asked_for
from pantry.records.books import Books
from pantry.records.rows import change
from pantry.records.tables import ItemRow


def set_level_of(books: Books, item: str, level: str, at: datetime) -> None:
    """Write how much there is of an item that nobody counts; whoever asked for it has it then."""
    change(books.connection, ItemRow, {"house": books.id, "id": item}, level=level)
    books.note("item", item)
    books.settings_changed()
    if level != "out":
        asked_for.came(books, item, at)
