"""What was counted last in a storage area, and in what order it stands on the shelves there."""

from collections.abc import Mapping

from pantry.commands.counting import Counting
from pantry.records.books import Books
from pantry.records.rows import change, every, put, remove
from pantry.records.tables import CountedRow
from pantry.rules.shelf_order import as_counted


def remember(counting: Counting, found: Mapping[str, int]) -> None:
    """Write what was found of each item, and the order in which it was: that of the shelves.

    What has been counted there since by somebody else stays as they found it.
    """
    books, given, area = counting.books, counting.given, counting.area.id
    rows = {row.item: row for row in every(books.connection, CountedRow, house=books.id, area=area)}
    before = sorted(rows, key=lambda item: (rows[item].place, item))
    counted = [item for item in found if item not in rows or rows[item].at <= given.at]
    for place, item in enumerate(as_counted(before, counted)):
        of = {"house": books.id, "area": area, "item": item}
        if item in counted:
            said = {"quantity": found[item], "at": given.at, "person": given.person}
            remove(books.connection, CountedRow, **of)
            put(books.connection, CountedRow, **of, **said, place=place, command=given.id)
        elif rows[item].place != place:
            change(books.connection, CountedRow, of, place=place)


def forget(books: Books, command: str) -> None:
    """A count was taken back: where things stand stays known, that they were counted does not."""
    for row in every(books.connection, CountedRow, house=books.id, command=command):
        of = {"house": books.id, "area": row.area, "item": row.item}
        change(books.connection, CountedRow, of, command="")
