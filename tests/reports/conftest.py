"""The demo house, only to be asked, and Larkfield Lodge, to be told things and then asked."""

from functools import cache

import pytest

from pantry.records.database import open_database
from pantry.records.schema import bring_up_to_date
from tests.commands.house import House
from tests.commands.larkfield import found_database, open_copy
from tests.reports.demo_house import NOW, asked, found_in


@pytest.fixture(scope="session")
def house(tmp_path_factory):
    """The demo house on an SQLite file of its own: the engine and the house's id."""
    engine = open_database(f"sqlite:///{tmp_path_factory.mktemp('demo')}/demo.db")
    bring_up_to_date(engine)
    yield engine, found_in(engine)
    engine.dispose()


@pytest.fixture(scope="session")
def told(house):
    """The rows of a report of the demo house, read once for each instant; nobody changes them."""

    @cache
    def rows(question, *arguments, at=NOW):
        return asked(house, question, *arguments, at=at)

    return rows


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
