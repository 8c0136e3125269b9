"""`import`: a house book, read whole, checked whole, and taken in whole or not at all."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

import click
from sqlalchemy import Connection, Engine

from pantry.commands.book import taking_in
from pantry.commands.book.check import check_book
from pantry.commands.book.files import read_book
from pantry.commands.book.sheets import HouseBook
from pantry.commands.book.taking_in import Taken
from pantry.records.database import reading, writing
from pantry.records.rows import every
from pantry.records.tables import HouseRow
from pantry.refusals import Fault
from pantry.reports.report import SCHEMA
from pantry.terminal.endings import REFUSED
from pantry.terminal.houses import chosen, database, existing_database, is_missing
from pantry.terminal.printing import add, console, json_option, plain, print_json, table
from pantry.terminal.settings import Settings, from_environment, present
from pantry.terminal.words import many


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
        print_json(_as_json(taken))
    else:
        _tell(taken, found, only_check=only_check)
    if taken.faults:
        click.get_current_context().exit(REFUSED)


def check(settings: Settings, book: HouseBook) -> Sequence[Fault]:
    """Everything that is wrong with a book, for the house it is of; nothing is made or written."""
    at = present(settings)
    if is_missing(settings):
        return check_book(book, at=at) if book.sheets else book.faults
    with existing_database(settings) as engine, reading(engine) as connection:
        return taking_in.check(connection, book, _meant(connection, book, settings), at)


def take_in(engine: Engine, book: HouseBook, settings: Settings) -> Taken:
    """Found the house where it is new and give it the book, in one transaction.

    Raises:
        Refusal: the door refuses the command for another reason than a fault of the book.
    """
    with writing(engine) as connection:
        house = _meant(connection, book, settings)
        return taking_in.take_in(connection, book, house, present(settings))


def _meant(connection: Connection, book: HouseBook, settings: Settings) -> str | None:
    """The house that a book is of, or else the one that is meant; None: it is yet to be founded."""
    if "house" in book.sheets:
        return taking_in.house_of(connection, book)
    return chosen(connection, settings).id if every(connection, HouseRow) else None


def _as_json(taken: Taken) -> dict[str, object]:
    """`{schema, applied, faults: [{file, row, column, value, code, problem, todo}]}`."""
    faults = [asdict(fault) for fault in taken.faults]
    return {"schema": SCHEMA, "applied": taken.applied, "faults": faults}


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
