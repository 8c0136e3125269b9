"""Bringing a database's tables up to date.

What there is to do is seen without Alembic, which takes longer to import than everything else that
a command of the terminal does; it is needed once a version. Whoever finds the tables of an older
version brings them up to date alone: a second program waits, and finds the work done.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from importlib.resources import files

from sqlalchemy import Connection, Engine, inspect, text

from pantry.records.database import reading, saying_busy, writing
from pantry.refusals import NotNow, declare

DATABASE_NEWER = declare("database_newer", "The database was written by a newer version.")

_ALONE = text("SELECT pg_advisory_xact_lock(7_426_267_293)")
"""Any number that every server of ours agrees on; the tables to lock are not there yet."""


def bring_up_to_date(engine: Engine) -> None:
    """Apply every migration the database has not seen, all or none.

    Raises:
        NotNow: `database_newer`, or `books_busy` where another program holds the database.
        RuntimeError: a row points nowhere after the migration; nothing of it was kept.
    """
    with reading(engine) as connection:
        stands = revision(connection)
    if stands == versions()[-1]:
        return
    if stands is not None and stands not in versions():
        raise NotNow(
            DATABASE_NEWER,
            f"The database is of version {stands}, this program knows {versions()[-1]}.",
            "Install the newer program.",
            value=stands,
        )
    from pantry.records.migrate import upgrade  # noqa: PLC0415 - see above: Alembic is slow to come

    if engine.dialect.name == "sqlite":
        with _rebuilding(engine) as connection:
            upgrade(connection)
    else:
        with writing(engine) as connection:
            connection.execute(_ALONE)
            upgrade(connection)


def revision(connection: Connection) -> str | None:
    """The version of the tables, or None where there are none yet."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()


@cache
def versions() -> tuple[str, ...]:
    """Every version of the tables, oldest first: the numbers that the migrations' files begin with.

    The last is the one that this program works with.
    """
    folder = files("pantry.records") / "migrations" / "versions"
    names = sorted(each.name for each in folder.iterdir() if each.name[:4].isdecimal())
    return tuple(name[:4] for name in names)


@contextmanager
def _rebuilding(engine: Engine) -> Iterator[Connection]:
    """A writing transaction in which SQLite may rebuild a table without minding who points to it.

    Foreign keys can be turned off only between transactions. They are checked before the commit.
    """
    with saying_busy(), engine.connect() as connection:
        connection.execution_options(writing=True)
        driver = connection.connection.driver_connection
        assert driver is not None  # noqa: S101 - a connection that was just opened has its driver's
        driver.execute("PRAGMA foreign_keys=OFF")
        try:
            with connection.begin():
                yield connection
                broken = connection.execute(text("PRAGMA foreign_key_check")).all()
                if broken:
                    raise RuntimeError(
                        f"after the migration these rows point nowhere: {broken[:5]}"
                    )
        finally:
            driver.execute("PRAGMA foreign_keys=ON")
