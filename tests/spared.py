"""What tests are spared: work that comes to the same every time, done once in a process.

Every test has a database of its own. SQLAlchemy compiles each statement anew for every engine,
which is more work than what most tests are about; here all engines on databases of one kind share
a dialect, so that what was compiled for one serves the next. And a new SQLite file gets its tables
by the migrations once, then by the statements that those came to. Nothing else of the product is
shortened, no process of its own is, and the tests of the tables take the whole way.
"""

from typing import Any

from sqlalchemy import Connection, Dialect, Engine, create_engine, event, inspect
from sqlalchemy.util import LRUCache

from pantry.records import migrate

migrated = migrate.upgrade
"""The whole way: every migration that the database has not seen."""

_MADE = """
    SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'
    ORDER BY rowid
"""


class Compiled:
    """Makes engines that share what was compiled for databases of their kind."""

    def __init__(self) -> None:
        self._statements: LRUCache[Any, Any] = LRUCache(4_000)
        self._dialects: dict[str, Dialect] = {}

    def engine(self, url: Any, **more: Any) -> Engine:
        """An engine as SQLAlchemy makes it, in all else."""
        made = create_engine(url, **more)
        made.update_execution_options(compiled_cache=self._statements)
        kind = made.dialect.name
        if kind in self._dialects:
            made.dialect = self._dialects[kind]
        else:
            event.listen(made, "connect", lambda *_: self._met(made.dialect), once=True)
        return made

    def _met(self, dialect: Dialect) -> None:
        """A dialect can be shared once it has met its database."""
        self._dialects.setdefault(dialect.name, dialect)


class Tables:
    """Makes the tables of a new SQLite file as they were made the first time."""

    def __init__(self) -> None:
        self._made: list[str] = []

    def upgrade(self, connection: Connection) -> None:
        """What the product does to a database that is not up to date."""
        is_new = connection.dialect.name == "sqlite" and not inspect(connection).get_table_names()
        if is_new and self._made:
            for statement in self._made:
                connection.exec_driver_sql(statement)
            return
        migrated(connection)
        if is_new:
            self._keep(connection)

    def _keep(self, connection: Connection) -> None:
        made = connection.exec_driver_sql(_MADE).scalars().all()
        filled = [
            name
            for name in inspect(connection).get_table_names()
            if connection.exec_driver_sql(f'SELECT 1 FROM "{name}" LIMIT 1').scalar()  # noqa: S608 - names of our own tables
        ]
        assert filled == ["alembic_version"], "what migrations write is kept too"
        version = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
        self._made = [*made, f"INSERT INTO alembic_version VALUES ('{version}')"]  # noqa: S608 - as above
