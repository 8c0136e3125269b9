"""`import`: a house book, read whole, checked whole, and taken in whole or not at all."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

import click
from sqlalchemy import Connection, Engine

from pantry import world
from pantry.commands import door
from pantry.commands.answers import Answer
from pantry.commands.book.check import check_book
from pantry.commands.book.files import read_book
from pantry.commands.book.founding import found_house
from pantry.commands.book.known import NOTHING, Known, known
from pantry.commands.book.sheets import HouseBook, as_body
from pantry.records.books import hold_house
from pantry.records.database import reading, writing
from pantry.records.rows import every, find
from pantry.records.slugs import slug
from pantry.records.tables import HouseRow, PersonRow
from pantry.refusals import Fault, Refusal
from pantry.reports.report import SCHEMA
from pantry.rules.house_time import write_instant
from pantry.terminal.endings import REFUSED
from pantry.terminal.houses import chosen, database, existing_database, is_missing
from pantry.terminal.printing import add, console, json_option, plain, print_json, table
from pantry.terminal.settings import Settings, from_environment, present
from pantry.terminal.words import many

NOBODY = "house book"
"""Who gives the import where neither the house nor the book has a manager."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of a house book: taken in, or not, with everything that is wrong with it."""

    applied: bool
    faults: Sequence[Fault] = ()

    def as_json(self) -> dict[str, object]:
        """`{schema, applied, faults: [{file, row, column, value, code, problem, todo}]}`."""
        faults = [asdict(fault) for fault in self.faults]
        return {"schema": SCHEMA, "applied": self.applied, "faults": faults}


@click.command("import")
@click.argument("book", metavar="FOLDER|BOOK.xlsx", type=click.Path(path_type=Path))
@click.option("--check", "only_check", is_flag=True, help="Say what is wrong; take nothing in.")
@json_option
def import_command(book: Path, *, only_check: bool, as_json: bool) -> None:
    """Take in a house book: a FOLDER of CSV sheets, or one workbook.

    All of it or nothing. The house is founded where there is none of its name yet.
    """
    settings, found = from_environment(), read_book(book)
    if only_check:
        taken = Taken(applied=False, faults=check(settings, found))
    else:
        with database(settings) as engine:
            taken = take_in(engine, found, settings)
    if as_json:
        print_json(taken.as_json())
    else:
        _tell(taken, found, only_check=only_check)
    if taken.faults:
        click.get_current_context().exit(REFUSED)


def check(settings: Settings, book: HouseBook) -> Sequence[Fault]:
    """Everything that is wrong with a book, for the house it is of; nothing is made or written."""
    at = present(settings)
    if is_missing(settings):
        return _faults(book, NOTHING, at)
    with existing_database(settings) as engine, reading(engine) as connection:
        return _faults(book, _known(connection, book, settings), at)


def take_in(engine: Engine, book: HouseBook, settings: Settings) -> Taken:
    """Found the house where it is new and give it the book, in one transaction.

    Raises:
        Refusal: the door refuses the command for another reason than a fault of the book.
    """
    at = present(settings)
    with writing(engine) as connection:
        faults = _faults(book, _known(connection, book, settings), at)
        if faults:
            return Taken(applied=False, faults=faults)
        house = (
            found_house(connection, book, world.new_id(), at=at)
            if "house" in book.sheets
            else chosen(connection, settings).id
        )
        hold_house(connection, house)
        command = _command(book, _giver(connection, house, book), at)
        (answer,) = door.apply(connection, house, [command], at)
        _refuse_unless_applied(answer)
    return Taken(applied=True)


def _faults(book: HouseBook, of_house: Known, at: datetime) -> Sequence[Fault]:
    """Everything that is wrong with a book; where no sheet of it can be read, only that."""
    return check_book(book, of_house, at=at) if book.sheets else book.faults


def _known(connection: Connection, book: HouseBook, settings: Settings) -> Known:
    """What the house that a book is of has already; nothing where it is yet to be founded."""
    sheet = book.sheets.get("house")
    if sheet is None:
        houses = every(connection, HouseRow)
        return known(connection, chosen(connection, settings).id) if houses else NOTHING
    name = sheet.rows[0][1].get("name", "") if sheet.rows else ""
    house = find(connection, HouseRow, id=slug(name))
    return known(connection, house.id) if house else NOTHING


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


def _tell(taken: Taken, book: HouseBook, *, only_check: bool) -> None:
    if taken.faults:
        _tell_faults(taken.faults)
        return
    rows = Counter({name: len(sheet.rows) for name, sheet in book.sheets.items()})
    held = ", ".join(f"{rows[name]} {name}" for name in book.sheets if rows[name])
    click.echo(f"The book has no fault: {held}.")
    click.echo("Nothing was taken in." if only_check else "All of it was taken in.")


def _tell_faults(faults: Sequence[Fault]) -> None:
    lines = table("Where", "What is there", "What is wrong, and what to do")
    for fault in faults:
        where = f"{fault.file} row {fault.row}" + (f", {fault.column}" if fault.column else "")
        add(lines, where, fault.value, f"{fault.problem} {fault.todo} [{fault.code}]")
    console().print(lines)
    click.echo(
        plain(f"The book has {many(len(faults), 'fault')}; nothing of it was taken in.").plain,
        err=True,
    )
