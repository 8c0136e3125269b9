"""The demo house, only to be asked, and Larkfield Lodge, to be told things and then asked."""

from pathlib import Path
from uuid import UUID

import pytest

from pantry.commands import door
from pantry.commands.book import files, founding, sheets
from pantry.records.database import open_database, writing
from pantry.records.schema import bring_up_to_date
from tests.commands.house import House
from tests.commands.larkfield import found_database, open_copy
from tests.reports.asking import NOW


@pytest.fixture(scope="session")
def house(tmp_path_factory):
    """The demo house on an SQLite file of its own: the engine and the house's id."""
    engine = open_database(f"sqlite:///{tmp_path_factory.mktemp('demo')}/demo.db")
    bring_up_to_date(engine)
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
    yield engine, found
    engine.dispose()


@pytest.fixture(scope="session")
def founded(tmp_path_factory):
    """A file with Larkfield Lodge in it, to be copied for every test."""
    return found_database(tmp_path_factory.mktemp("lodge") / "founded.db")


@pytest.fixture
def lodge(founded, tmp_path):
    """Larkfield Lodge, on Monday 8 March 2027 at seven; nothing is in stock."""
    engine = open_copy(founded, tmp_path / "lodge.db")
    yield House(engine)
    engine.dispose()
