"""Backup and restore: every row into one SQLite file, verified before it counts (SY7, SY11).

The same file comes from either database and goes back into either. A restored server has a new
epoch, so that every device hands in again what it still holds.
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, Engine, insert, select, text

from pantry.records.database import open_database, reading, writing
from pantry.records.rows import change, every
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import HouseRow, SQLModel
from pantry.records.verify import disagreements
from pantry.refusals import NotNow, NotThere, declare

BACKUP_DISAGREES = declare("backup_disagrees", "The books in the backup do not agree.")
BACKUP_MISSING = declare("backup_missing", "There is no backup file of that name.")
DATABASE_IN_USE = declare("database_in_use", "The database has a house already.")
FILE_IN_THE_WAY = declare("file_in_the_way", "A file of that name is there already.")

_CHUNK = 1_000


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds: the last journal position of each house in it."""

    file: Path
    positions: dict[str, int]


def back_up(engine: Engine, file: Path) -> Backup:
    """Copy everything into a new file, verify the copy, then say how far the books are backed up.

    Raises:
        NotNow: `file_in_the_way`, `backup_disagrees`.
    """
    if file.exists():
        raise NotNow(
            FILE_IN_THE_WAY,
            f"{file} is there already.",
            "Name a new file.",
            value=str(file),
        )
    part = file.with_name(file.name + ".part")
    part.unlink(missing_ok=True)
    positions = _copy(engine, part)
    part.replace(file)
    for house, position in positions.items():
        with writing(engine) as connection:
            change(connection, HouseRow, {"id": house}, backed_up=position)
    return Backup(file, positions)


def _copy(engine: Engine, part: Path) -> dict[str, int]:
    copy = open_database(f"sqlite:///{part}")
    try:
        bring_up_to_date(copy)
        with reading(engine) as source, writing(copy) as target:
            _copy_rows(source, target)
        with reading(copy) as connection:
            _refuse_disagreement(connection, part)
            positions = {row.id: row.position for row in every(connection, HouseRow)}
        with copy.connect() as connection:
            connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        copy.dispose()
    return positions


def restore(engine: Engine, file: Path, new_epoch: Callable[[], str]) -> Backup:
    """Put a backup into an empty database, under a new epoch for every house.

    Raises:
        NotThere: `backup_missing`.
        NotNow: `database_in_use`, `backup_disagrees`.
    """
    if not file.is_file():
        raise NotThere(BACKUP_MISSING, f"There is no file {file}.", "Name it in full.", str(file))
    bring_up_to_date(engine)
    source = open_database(f"sqlite:///{file}")
    try:
        with reading(source) as rows, writing(engine) as target:
            if every(target, HouseRow):
                raise NotNow(
                    DATABASE_IN_USE,
                    "This database has a house already.",
                    "Restore into an empty database.",
                )
            _refuse_disagreement(rows, file)
            _copy_rows(rows, target)
            houses = every(target, HouseRow)
            for house in houses:
                where = {"id": house.id}
                change(target, HouseRow, where, epoch=new_epoch(), backed_up=house.position)
    finally:
        source.dispose()
    return Backup(file, {house.id: house.position for house in houses})


def _copy_rows(source: Connection, target: Connection) -> None:
    for table in SQLModel.metadata.sorted_tables:
        result = source.execute(select(table))
        while rows := result.mappings().fetchmany(_CHUNK):
            target.execute(insert(table), [dict(row) for row in rows])


def _refuse_disagreement(connection: Connection, file: Path) -> None:
    problems = [row for (row,) in connection.execute(text("PRAGMA integrity_check")) if row != "ok"]
    for house in every(connection, HouseRow):
        problems += disagreements(connection, house.id)
    if problems:
        raise NotNow(
            BACKUP_DISAGREES,
            f"The books in {file} do not agree: {problems[0]}",
            "Run verify on the database it was made from.",
            value=str(file),
        )
