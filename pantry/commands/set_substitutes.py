"""Say what may stand in for an item, how much of it for one, and when it will do."""

from pantry.commands import base, naming
from pantry.commands.given import Given
from pantry.commands.recipe_decisions import SetSubstitutes
from pantry.commands.recipe_sheets import read_substitutes
from pantry.records.books import Books
from pantry.records.rows import add, remove
from pantry.records.tables import SubstituteRow


def set_substitutes(books: Books, given: Given[SetSubstitutes]) -> None:
    """Write all that may take an item's place; what is left out may no longer.

    Raises:
        NotThere: `item_unknown`.
        Moved: `base_moved`.
        FaultyBook: `recipe_faulty`, with every fault by line and column.
    """
    row = naming.item(books, given.body.item)
    base.check(books, given, row, row.name)
    checked = read_substitutes(books.connection, books.id, given.body, given.at)
    remove(books.connection, SubstituteRow, house=books.id, item=row.id)
    add(books.connection, *checked.reading.rows)
    base.next_version(books, row, "item")
    books.settings_changed()
