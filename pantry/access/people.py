"""Finding the person and the house that somebody names."""

from sqlalchemy import Connection

from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import HouseRow, PersonRow
from pantry.refusals import NotThere, UnreadableInput, declare

WHICH_HOUSE = declare("which_house", "There are several houses here, and none was named.")
NOBODY_CALLED = declare("nobody_called", "Nobody of that name works in the house.")


def houses(connection: Connection, only: str | None) -> list[HouseRow]:
    """The houses that are served here: all of the database, or the only one, by name or id."""
    return [row for row in every(connection, HouseRow) if only in (None, row.id, row.name)]


def house_named(connection: Connection, name: str | None, only: str | None) -> HouseRow | None:
    """The house somebody means, by name or id; None where it is not served here.

    Raises:
        UnreadableInput: `which_house`, where there are several and none is named.
    """
    served = houses(connection, only)
    if name:
        return next((row for row in served if name == row.name or slug(name) == row.id), None)
    if len(served) > 1:
        names = ", ".join(row.name for row in served)
        raise UnreadableInput(
            WHICH_HOUSE, "There are several houses here.", f"Name one: {names}.", field="house"
        )
    return next(iter(served), None)


def person_named(connection: Connection, house: str, name: str) -> PersonRow | None:
    """The active person of a house with this name or id, however its letters are written."""
    wanted = slug(name)
    people = every(connection, PersonRow, house=house)
    return next((row for row in people if row.active and wanted in (row.id, slug(row.name))), None)


def must_be_there(connection: Connection, house: str, name: str) -> PersonRow:
    """The same person, who must be there.

    Raises:
        NotThere: `nobody_called`.
    """
    person = person_named(connection, house, name)
    if person is None:
        raise nobody_called(name)
    return person


def nobody_called(name: str) -> NotThere:
    """Nobody of that name is there, or nobody for whom it is."""
    return NotThere(
        NOBODY_CALLED,
        f"Nobody called {name!r} works in this house.",
        "Name one of its people.",
        value=name,
        field="person",
    )
