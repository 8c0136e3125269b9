"""`demo`: an invented house, made afresh in a folder of its own, and what it sees this morning."""

import json
import shlex
import sys
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from importlib.resources import files
from pathlib import Path

import click
from rich.console import Console
from sqlalchemy import Engine

from pantry import world
from pantry.access import passwords
from pantry.commands import door
from pantry.commands.book.files import read_book
from pantry.commands.book.sheets import HouseBook
from pantry.records.database import writing
from pantry.records.rows import every, one
from pantry.records.tables import HouseRow, PersonRow
from pantry.refusals import NotNow, NotThere, declare
from pantry.reports.report import SCHEMA
from pantry.rules.house_time import instant_of, local_date, write_instant, zone
from pantry.terminal import pages
from pantry.terminal.houses import database, holds_a_house
from pantry.terminal.importing import take_in
from pantry.terminal.printing import console, json_option, plain, print_json
from pantry.terminal.progress import progress
from pantry.terminal.reporting import looking, words_of
from pantry.terminal.serving import serve
from pantry.terminal.settings import DATABASE_FILE, Settings, from_environment, present
from pantry.terminal.shifted import days_moved, shifted, weeks_between
from pantry.terminal.words import many

DATA_IN_USE = declare("data_in_use", "A house that is no demo house is there already.")
DEMO_BOOK_MISSING = declare("demo_book_missing", "The demo house's book did not come with this.")

BOOK_DAY = date(2027, 3, 10)
"""The Wednesday for which the demo house's book is written."""

DAYS_BEFORE = "days_before.jsonl"
"""What the people of the demo house did before its morning: commands, one a line."""

MORNING = time(7)
"""When the demo house's clock begins."""

NEXT = {
    "plan": "every order with its deadline and the services it is for",
    "coverage --service {saturday}/dinner/family": "which batch is given to what, what is short",
    "use-first": "what dies soon and is promised to nobody, and which dishes could use it",
    "notice": "what can be bought once a menu is chosen, and what must be kept in",
    "trace B-0241": "where a batch came from and where it went",
}
"""Five commands to try, and what they answer."""

OPENS_ONTO = {
    "porter": "goods in",
    "chef": "the menus of the next days",
    "manager": "the deadlines",
    "approver": "the menus, as the household sees them",
}
"""What each role sees first."""


@click.command("demo")
@click.option("--serve", "then_serve", is_flag=True, help="Open it to browsers, with its people.")
@json_option
def demo(*, then_serve: bool, as_json: bool) -> None:
    """Make the demo house and show its morning, its next days, its plan, its questions.

    With --serve it is opened to browsers instead; where to go and who to be is printed.

    It is made in CHOOSEBY_DATA where that is set, or else in `demo` in the data folder, afresh
    every time; a house of your own is never touched. Its dates are moved by whole weeks to this
    week, and its clock begins at seven in the morning of its own Wednesday. No network is needed.
    """
    settings = _settings(from_environment())
    book = demo_book()
    again = _clear(settings)
    weeks = _make(settings, book)
    if then_serve:
        _open(settings, again=again, weeks=weeks)
        return
    with looking(settings) as seen:
        if as_json:
            print_json(
                {
                    "schema": SCHEMA,
                    "house": seen.house.name,
                    "data": str(settings.data),
                    "afresh": again,
                    "weeks": weeks,
                    "as_of": write_instant(seen.now),
                }
            )
            return
        terminal = console()
        _greet(terminal, settings, again=again, weeks=weeks)
        pages.show(terminal, words_of(seen, terminal), seen)
    _say_what_next(terminal, settings, weeks)


def _settings(found: Settings) -> Settings:
    """In the named data folder, or else in `demo` in the usual one; house names do not matter."""
    mine = replace(found, house=None)
    return mine if found.data_named or found.database_named else mine.in_folder(found.data / "demo")


def demo_book() -> HouseBook:
    """The demo house's book.

    Raises:
        NotThere: `demo_book_missing`.
    """
    return read_book(_demo_folder())


def _demo_folder() -> Path:
    """Where the demo house's book is: in the installed package, or in a checkout."""
    package = Path(str(files("pantry")))
    for folder in (package / "demo_house", package.parent / "seed"):
        if folder.is_dir():
            return folder
    raise NotThere(
        DEMO_BOOK_MISSING,
        "The demo house's book did not come with this installation.",
        "Install the package again, or run it from a checkout.",
    )


def _clear(settings: Settings) -> bool:
    """Take an earlier demo house away; answer whether there was one.

    Raises:
        NotNow: `data_in_use`, for any other house.
    """
    if settings.demo_file.is_file() and not settings.database_named:
        for file in settings.data.glob(f"{DATABASE_FILE}*"):
            file.unlink()
        settings.demo_file.unlink()
        return True
    if holds_a_house(settings):
        raise NotNow(
            DATA_IN_USE,
            f"A house that is no demo house is in {_place(settings)}.",
            "Point CHOOSEBY_DATA at an empty folder, or unset it.",
        )
    return False


def _make(settings: Settings, book: HouseBook) -> int:
    """Found the demo house in its week; answer by how many weeks its book was moved."""
    house = zone(dict(book.sheets["house"].rows)[2]["time_zone"])
    weeks = weeks_between(BOOK_DAY, local_date(present(settings), house))
    moved = shifted(book, weeks, BOOK_DAY)
    seven = instant_of(BOOK_DAY + timedelta(weeks=weeks), MORNING, house)
    with database(settings) as engine, progress("The demo house moves in", total=None):
        _start_clock(settings, seven)
        taken = take_in(engine, moved, settings)
        if not taken.faults:
            _live_in(engine, weeks, seven)
    if taken.faults:
        fault = taken.faults[0]
        raise NotNow(fault.code, f"{fault.file} row {fault.row}: {fault.problem}", fault.todo)
    return weeks


def _live_in(engine: Engine, weeks: int, seven: datetime) -> None:
    """Give what its people did on the days before, from the list beside the book."""
    told = (_demo_folder() / DAYS_BEFORE).read_text(encoding="utf-8")
    commands = [json.loads(line) for line in days_moved(told, weeks).splitlines() if line]
    with writing(engine) as connection:
        house = one(connection, HouseRow).id
        for answer in door.apply(connection, house, commands, seven):
            if answer.outcome != "applied":
                raise RuntimeError(f"the demo house's own command failed: {answer}")


def _start_clock(settings: Settings, seven: datetime) -> None:
    """Mark the folder as a demo house's, and set its clock to seven in its morning."""
    if settings.database_named:
        return
    ahead = seven - world.now().replace(microsecond=0)
    told = {"clock_ahead_seconds": int(ahead.total_seconds())}
    settings.demo_file.write_text(json.dumps(told) + "\n", encoding="utf-8")


def _place(settings: Settings) -> str:
    named = "the database that CHOOSEBY_DATABASE_URL names"
    return named if settings.database_named else str(settings.data)


def _greet(terminal: Console, settings: Settings, *, again: bool, weeks: int) -> None:
    """What was made, where, and that everything in it is invented."""
    before = "The demo house that was there before is gone. " if again else ""
    if weeks:
        moved = f"moved by {many(abs(weeks), 'week')} to this week"
    else:
        moved = "as they stand in its book"
    terminal.print(
        plain(
            f"{before}An invented house, made afresh in {_place(settings)}; its dates are {moved}."
        )
    )
    if not settings.database_named and not settings.now_fixed:
        terminal.print("Its own clock began at seven in the morning, and runs on from there.")


def _open(settings: Settings, *, again: bool, weeks: int) -> None:
    """Give everybody of the house a password, say who they are, and serve it."""
    password = world.new_code()
    with database(settings) as engine, writing(engine) as connection:
        known, now = passwords.hashed(password), world.now()
        people = every(connection, PersonRow)
        for person in people:
            passwords.keep(connection, person.house, person.id, known, now)
    terminal = console()
    _greet(terminal, settings, again=again, weeks=weeks)
    terminal.print(plain(f"Come in as one of its people; the password of each is  {password}"))
    for person in people:
        opens = f"opens onto {OPENS_ONTO[person.role]}"
        terminal.print(plain(f"    {person.name:<18}{person.role:<10}{opens}"))
    serve(settings)


def _say_what_next(terminal: Console, settings: Settings, weeks: int) -> None:
    """Five commands to try."""
    saturday = BOOK_DAY + timedelta(days=3, weeks=weeks)
    folder = shlex.quote(_short(settings.data))
    named = "" if settings.database_named else f"CHOOSEBY_DATA={folder} "
    pages.begin(terminal, "What to try next")
    for command, what in NEXT.items():
        call = f"{named}{_program()} {command.format(saturday=saturday)}"
        terminal.print(plain(call), soft_wrap=True)
        terminal.print(plain(f"    {what}"))


def _short(path: Path) -> str:
    """A path as one would type it here."""
    here = Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)


def _program() -> str:
    """How this program was called, as one would type it here."""
    called = Path(sys.argv[0])
    return _short(called.absolute()) if called.parent != Path() else called.name
