"""Taking a house book in: founding its house where it is new, and one command through the door."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from pantry import world
from pantry.commands import door
from pantry.commands.answers import Answer
from pantry.commands.book.check import check_book
from pantry.commands.book.founding import found_house
from pantry.commands.book.known import NOTHING, Known, known
from pantry.commands.book.sheets import HouseBook, as_body
from pantry.records.books import hold_house
from pantry.records.rows import every, find
from pantry.records.slugs import slug
from pantry.records.tables import HouseRow, PersonRow
from pantry.refusals import Fault, Refusal
from pantry.rules.house_time import write_instant

NOBODY = "house book"
"""Who gives the import where neither the house nor the book has a manager."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of a house book: taken in, or not, with everything that is wrong with it."""

    applied: bool
    faults: Sequence[Fault] = ()


def house_of(connection: Connection, book: HouseBook) -> str | None:
    """The id of the house that a book names, where that is founded already."""
    sheet = book.sheets.get("house")
    name = sheet.rows[0][1].get("name", "") if sheet and sheet.rows else ""
    row = find(connection, HouseRow, id=slug(name))
    return row.id if row else None


def check(
    connection: Connection, book: HouseBook, house: str | None, at: datetime
) -> Sequence[Fault]:
    """Everything that is wrong with a book for a house, or for a new one; nothing is written.

    Where no sheet of it can be read, only that.
    """
    return _faults(book, known(connection, house) if house else NOTHING, at)


def take_in(
    connection: Connection, book: HouseBook, house: str | None, at: datetime, *, giver: str = ""
) -> Taken:
    """Give a book to its house, which is founded where there is none yet.

    Args:
        connection: inside a writing transaction.
        book: as `read_book` gives it.
        house: the id of the house; None: the one of the book's sheet `house`, new or not.
        at: the instant of the import.
        giver: who gives the command; the house's first manager, or else the book's.

    Raises:
        Refusal: the door refuses the command for another reason than a fault of the book.
    """
    faults = check(connection, book, house or house_of(connection, book), at)
    if faults:
        return Taken(applied=False, faults=faults)
    house = house or found_house(connection, book, world.new_id(), at=at)
    hold_house(connection, house)
    command = _command(book, giver or _giver(connection, house, book), at)
    (answer,) = door.apply(connection, house, [command], at)
    _refuse_unless_applied(answer)
    return Taken(applied=True)


def _faults(book: HouseBook, of_house: Known, at: datetime) -> Sequence[Fault]:
    return check_book(book, of_house, at=at) if book.sheets else book.faults


def _giver(connection: Connection, house: str, book: HouseBook) -> str:
    """Who gives the command: the house's first manager, or else the book's."""
    for person in every(connection, PersonRow, house=house):
        if person.active and person.role == "manager":
            return person.name
    sheet = book.sheets.get("people")
    people = [row for _, row in sheet.rows] if sheet else []
    names = (row["name"] for row in people if row.get("role", "").casefold() == "manager")
    return next(names, NOBODY)


def _command(book: HouseBook, person: str, at: datetime) -> dict[str, object]:
    return {
        "id": world.new_id(),
        "kind": "import_book",
        "at": write_instant(at),
        "person": person,
        "body": {"sheets": as_body(book)},
    }


def _refuse_unless_applied(answer: Answer) -> None:
    """Undo everything where the command was not applied, the founding included."""
    said = answer.problem
    if answer.outcome != "applied" and said is not None:
        raise Refusal(said.code, said.detail, said.todo, said.value, said.field)
