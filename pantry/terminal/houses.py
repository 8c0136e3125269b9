"""The database behind the command line, and which of its houses is meant."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, inspect

from pantry.records.database import open_database, reading
from pantry.records.rows import every
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import HouseRow
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.terminal.settings import Settings

NO_HOUSE = declare("no_house", "There is no house in the database yet.")
HOUSE_UNKNOWN = declare("house_unknown", "No house has that name or id.")
HOUSE_NOT_NAMED = declare("house_not_named", "There are several houses, and none was named.")


@contextmanager
def database(settings: Settings) -> Iterator[Engine]:
    """The database, made where it is not there yet and brought up to date."""
    if not settings.database_named:
        settings.data.mkdir(parents=True, exist_ok=True)
    engine = open_database(settings.database)
    try:
        bring_up_to_date(engine)
        yield engine
    finally:
        engine.dispose()


@contextmanager
def existing_database(settings: Settings) -> Iterator[Engine]:
    """The database, of which nothing is made where it is not there yet.

    Raises:
        NotThere: `no_house`.
    """
    if is_missing(settings):
        raise _no_house(settings)
    with database(settings) as engine:
        yield engine


def holds_a_house(settings: Settings) -> bool:
    """Whether a house is in the database; nothing is made or changed to find out."""
    if is_missing(settings):
        return False
    engine = open_database(settings.database)
    try:
        if not inspect(engine).has_table("house"):
            return False
        with reading(engine) as connection:
            return bool(every(connection, HouseRow))
    finally:
        engine.dispose()


def chosen(connection: Connection, settings: Settings) -> HouseRow:
    """The house that is meant: the one named, or the only one.

    Raises:
        NotThere: `no_house`, `house_unknown`.
        UnreadableInput: `house_not_named`, with the names.
    """
    houses = every(connection, HouseRow)
    if not houses:
        raise _no_house(settings)
    names = ", ".join(house.name for house in houses)
    if settings.house is None:
        if len(houses) == 1:
            return houses[0]
        raise UnreadableInput(
            HOUSE_NOT_NAMED,
            f"There are {len(houses)} houses: {names}.",
            "Say which with CHOOSEBY_HOUSE.",
        )
    found = [house for house in houses if settings.house in (house.id, house.name)]
    if not found:
        raise NotThere(
            HOUSE_UNKNOWN,
            f"No house is called {settings.house!r}.",
            f"Set CHOOSEBY_HOUSE to one of: {names}.",
            value=settings.house,
        )
    return found[0]


def is_missing(settings: Settings) -> bool:
    """Whether the database is a file that is not there."""
    url = open_database(settings.database).url
    in_a_file = url.get_backend_name() == "sqlite" and url.database not in {None, "", ":memory:"}
    return in_a_file and not Path(str(url.database)).is_file()


def _no_house(settings: Settings) -> NotThere:
    """There is none where the settings point; what a newcomer can do."""
    named = "the database that CHOOSEBY_DATABASE_URL names"
    return NotThere(
        NO_HOUSE,
        f"There is no house in {named if settings.database_named else settings.data} yet.",
        "Bring your sheets with `chooseby import FOLDER`, look at one with `chooseby demo`, "
        "or point CHOOSEBY_DATA at its folder.",
    )
