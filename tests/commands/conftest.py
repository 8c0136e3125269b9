"""The house that the tests of commands are told of, on a database of its own."""

import pytest

from tests.commands.house import House
from tests.commands.larkfield import found_database, open_copy


@pytest.fixture(scope="session")
def founded(tmp_path_factory):
    """A file with Larkfield Lodge in it, to be copied for every test."""
    return found_database(tmp_path_factory.mktemp("house") / "founded.db")


@pytest.fixture
def house(founded, tmp_path):
    """Larkfield Lodge; at the end of every test its books must agree."""
    engine = open_copy(founded, tmp_path / "house.db")
    lodge = House(engine)
    yield lodge
    assert lodge.disagreements() == []
    engine.dispose()
