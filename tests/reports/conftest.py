"""The demo house, founded once for every test of the reports."""

from functools import cache

import pytest

from pantry.records.database import open_database
from pantry.records.schema import bring_up_to_date
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
