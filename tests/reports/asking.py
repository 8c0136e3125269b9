"""How the tests ask a report, and how they read the demo house's sheets beside the product."""

import csv
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from pantry.records.database import reading
from pantry.reports.view import view
from tests.commands.larkfield import ID

NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)
"""The demo house's Wednesday; until 28 March its clock (Europe/London) shows UTC."""


def asked(house, question, *arguments, at=NOW):
    """What a report answers of the demo house."""
    engine, found = house
    with reading(engine) as connection:
        return question(view(connection, found, at), *arguments)


def told(lodge, question, *arguments):
    """What a report answers of Larkfield Lodge, at its own time."""
    with reading(lodge.engine) as connection:
        return question(view(connection, ID, lodge.now), *arguments)


def sheet(name):
    """The rows of one of the demo house's sheets, read with the csv module alone."""
    with (Path("seed") / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def value(quantity):
    return Decimal(quantity["value"])


def those(rows, **equal):
    """The rows that have these values."""
    return [row for row in rows if all(row.get(key) == wanted for key, wanted in equal.items())]


def one(rows, **equal):
    (found,) = those(rows, **equal)
    return found
