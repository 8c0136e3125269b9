"""Opening a database: SQLite by default, any PostgreSQL URL with the same code.

SQLite runs in WAL with `synchronous=FULL`: a commit that was acknowledged survives a power cut.
A writing transaction begins IMMEDIATE, so that what it read cannot be stale when it writes; the
driver's own default would let two takers both see the last litre.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

BUSY_MILLISECONDS = 30_000


def open_database(url: str) -> Engine:
    """An engine for a SQLAlchemy URL; `postgresql://` is spoken through psycopg."""
    if url.startswith("postgresql://"):
        url = url.replace("postgresql://", "postgresql+psycopg://", 1)
    engine = create_engine(url)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _prepare_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: Any, _record: object) -> None:  # noqa: ANN401 - the driver's own
    connection.isolation_level = None  # the driver must not begin transactions of its own
    cursor = connection.cursor()
    cursor.execute("PRAGMA journal_mode=WAL")
    cursor.execute("PRAGMA synchronous=FULL")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.execute(f"PRAGMA busy_timeout={BUSY_MILLISECONDS}")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    writing = connection.get_execution_options().get("writing", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """One consistent view of the books; nothing can be written through it by mistake."""
    options = {}
    if engine.dialect.name == "postgresql":
        options = {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
    with engine.connect().execution_options(**options) as connection, connection.begin():
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One durable transaction."""
    connection = engine.connect().execution_options(writing=True)
    with connection, connection.begin():
        yield connection
