"""Founding a house: its row, from the sheet `house` of its first book."""

from datetime import datetime

from sqlalchemy import Connection

from pantry.commands.book.check import read_all, refuse_faulty
from pantry.commands.book.house import as_columns, open_book
from pantry.commands.book.known import NOTHING
from pantry.commands.book.sheets import HouseBook
from pantry.records.rows import add, find
from pantry.records.slugs import slug
from pantry.records.tables import HouseRow


def found_house(connection: Connection, book: HouseBook, epoch: str, *, at: datetime) -> str:
    """The id of the house that a book is of, which is founded where no house has its name.

    A new house has nothing but its settings until the command `import_book` brings the rest. Both
    belong in one transaction, which is undone where the command is refused.

    Args:
        connection: inside a writing transaction.
        book: with the sheet `house`.
        epoch: of the server, for a new house.
        at: the instant of the import.

    Raises:
        FaultyBook: `book_faulty`, with every fault of the book, where its house is at fault.
    """
    sheet = book.sheets.get("house")
    name = sheet.rows[0][1].get("name", "") if sheet and sheet.rows else ""
    if name and find(connection, HouseRow, id=slug(name)):
        return slug(name)
    reading = open_book(book, NOTHING, at)
    if reading.faults:
        refuse_faulty(read_all(book, NOTHING, at))
    house = reading.house
    add(connection, HouseRow(id=house.id, epoch=epoch, **as_columns(house)))
    return house.id
