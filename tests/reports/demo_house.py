"""The demo house as it stands on the morning of its first day, and what its reports say."""

import csv
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from uuid import UUID

from pantry.commands import door
from pantry.commands.book import files, founding, sheets
from pantry.records.database import reading, writing
from pantry.reports.view import view
from tests.reports.in_shape import rows_in_shape

NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)


def found_in(engine):
    """Found the demo house in an empty database; its id."""
    book = files.read_book(Path("seed"))
    command = {
        "id": str(UUID(int=1)),
        "kind": "import_book",
        "at": "2027-03-10T07:00:00Z",
        "person": "house book",
        "body": {"sheets": sheets.as_body(book)},
    }
    with writing(engine) as connection:
        found = founding.found_house(connection, book, "first", at=NOW)
        (answer,) = door.apply(connection, found, [command], NOW)
        assert answer.outcome == "applied", answer.problem
    return found


def asked(house, question, *arguments, at=NOW):
    """What a report says of a house, as its engine and its id."""
    engine, found = house
    with reading(engine) as connection:
        seen = view(connection, found, at)
        return rows_in_shape(seen, question, question(seen, *arguments))


def sheet(name):
    """The rows of one of the demo house's sheets, read with the csv module alone."""
    with (Path("seed") / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def value(quantity):
    return Decimal(quantity["value"])


def only(rows, **named):
    """The rows in which each of these columns has this value."""
    return [row for row in rows if all(row.get(name) == wanted for name, wanted in named.items())]


def one(rows, **named):
    """The one row in which each of these columns has this value."""
    (row,) = only(rows, **named)
    return row
