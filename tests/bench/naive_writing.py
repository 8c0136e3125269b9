"""The twin of the door: the same rows written by a bare loop over sqlite3.

The rows are those that the door wrote, statement by statement as SQLAlchemy gave them to the
driver, written again into a copy of the same file at the same durability. The twin reads nothing,
decides nothing, checks nothing and needs no savepoint: nothing that keeps these rows can be faster
in this language by much.
"""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from time import perf_counter
from typing import Any, NamedTuple

from sqlalchemy import Engine, event

_WRITES = ("INSERT", "UPDATE", "DELETE")


class Write(NamedTuple):
    """One statement as the driver got it; `many`: its parameters are a list of rows."""

    statement: str
    parameters: Any
    many: bool


@contextmanager
def writes_of(engine: Engine) -> Iterator[list[Write]]:
    """Everything that is written through the engine meanwhile, in order."""
    found: list[Write] = []

    def note(_c: object, _k: object, statement: str, values: Any, _x: object, many: bool) -> None:  # noqa: FBT001 - SQLAlchemy calls it so
        if statement.startswith(_WRITES):
            found.append(Write(statement, values, many))

    event.listen(engine, "before_cursor_execute", note)
    try:
        yield found
    finally:
        event.remove(engine, "before_cursor_execute", note)


def write(file: Path, groups: Sequence[Sequence[Write]]) -> float:
    """Write each group in one durable commit; answers the seconds it took."""
    with closing(sqlite3.connect(file, isolation_level=None)) as database:
        database.execute("PRAGMA journal_mode=WAL")
        database.execute("PRAGMA synchronous=FULL")
        database.execute("PRAGMA foreign_keys=ON")
        begun = perf_counter()
        for group in groups:
            database.execute("BEGIN IMMEDIATE")
            for statement, parameters, many in group:
                if many:
                    database.executemany(statement, parameters)
                else:
                    database.execute(statement, parameters).fetchall()
            database.execute("COMMIT")
        return perf_counter() - begun


def contents(file: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table, to compare what two sides wrote."""
    with closing(sqlite3.connect(file)) as database:
        names = database.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        return {
            name: sorted(database.execute(f'SELECT * FROM "{name}"').fetchall(), key=repr)  # noqa: S608 - names of our own tables
            for (name,) in names
        }
