"""The house that the tests of commands are told of, on a database of its own."""

import shutil

import pytest
from sqlalchemy import event

from pantry.records.database import open_database, writing
from pantry.records.schema import bring_up_to_date
from tests.commands.house import House
from tests.commands.larkfield import found_house


@pytest.fixture(scope="session")
def founded(tmp_path_factory):
    """A file with Larkfield Lodge in it, to be copied for every test."""
    path = tmp_path_factory.mktemp("house") / "founded.db"
    engine = open_database(f"sqlite:///{path}")
    bring_up_to_date(engine)
    with writing(engine) as connection:
        found_house(connection)
    engine.dispose()
    return path


@pytest.fixture
def house(founded, tmp_path):
    """Larkfield Lodge; at the end of every test its books must agree."""
    engine = open_database(f"sqlite:///{shutil.copy(founded, tmp_path / 'house.db')}")
    event.listen(engine, "connect", _do_not_wait_for_the_disk)
    lodge = House(engine)
    yield lodge
    assert lodge.disagreements() == []
    engine.dispose()


def _do_not_wait_for_the_disk(connection, _record):
    """No test cuts the power."""
    connection.execute("PRAGMA synchronous=OFF")
