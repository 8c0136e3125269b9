"""Backup and restore: every row into one SQLite file, verified before it counts (SY7, SY11).

The same file comes from either database and goes back into either. A restored server has a new
epoch, and awaits every device, which hands in again what it still holds. Who is signed in is not in
it: a session that was ended since must not come back.

A backup is written beside its place and moved there once it is verified and on the disk, so that
a file of that name is always whole. It is never opened where it lies: restoring works on a copy,
which may be brought up to date, while the backup stays as it is, on a medium that may be read-only.
"""

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import URL, Connection, Engine, LargeBinary, bindparam, insert, select, update
from sqlalchemy.exc import DatabaseError, OperationalError

from pantry.records.database import open_database, reading, writing
from pantry.records.gathering import await_devices
from pantry.records.rows import change, every, table
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import PASSING, HouseRow, SQLModel
from pantry.records.verify import disagreements
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare

BACKUP_DISAGREES = declare("backup_disagrees", "The books in the backup do not agree.")
BACKUP_MISSING = declare("backup_missing", "There is no backup file of that name.")
BACKUP_UNREADABLE = declare("backup_unreadable", "The file is not a backup, or is damaged.")
BACKUP_UNWRITABLE = declare("backup_unwritable", "The backup could not be written to its place.")
DATABASE_IN_USE = declare("database_in_use", "The database has a house already.")
FILE_IN_THE_WAY = declare("file_in_the_way", "A file of that name is there already.")

_CHUNK = 1_000
_FEW = 10
"""Rows at a time, and of a table with pictures: a thousand of those would be a gigabyte."""

_BACKED_UP = (
    update(table(HouseRow))
    .where(table(HouseRow).c.id == bindparam("house"))
    .where(table(HouseRow).c.backed_up < bindparam("to"))
    .values(backed_up=bindparam("to"))
)


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds: the last journal position of each house in it.

    Attributes:
        file: where it is.
        positions: by house.
        awaited: once it is restored, the names of the devices that are to hand in, by house.
    """

    file: Path
    positions: dict[str, int]
    awaited: dict[str, list[str]] = field(default_factory=dict)


def back_up(engine: Engine, file: Path) -> Backup:
    """Copy everything into a new file, verify the copy, then say how far the books are backed up.

    Raises:
        NotNow: `file_in_the_way`, `backup_disagrees`, `backup_unwritable`.
    """
    if file.exists():
        raise NotNow(
            FILE_IN_THE_WAY,
            f"{file} is there already.",
            "Name a new file.",
            value=str(file),
        )
    try:
        positions = _write(engine, file)
    except (OSError, OperationalError) as error:
        raise NotNow(
            BACKUP_UNWRITABLE,
            f"{file} cannot be written: {_reason(error)}.",
            "See to it, or name a file somewhere else.",
            value=str(file),
        ) from error
    with writing(engine) as connection:
        for house, position in positions.items():
            connection.execute(_BACKED_UP, {"house": house, "to": position})
    return Backup(file, positions)


def _write(engine: Engine, file: Path) -> dict[str, int]:
    with TemporaryDirectory(dir=file.parent, prefix=".backup-") as folder:
        part = Path(folder, file.name)
        with _opened(part) as copy:
            bring_up_to_date(copy)
            with reading(engine) as source, writing(copy) as target:
                _copy_rows(source, target)
            positions = _verified(copy, file)
        _to_the_disk(part)
        part.replace(file)
    _to_the_disk(file.parent)
    return positions


def restore(engine: Engine, file: Path, new_epoch: Callable[[], str], now: datetime) -> Backup:
    """Put a backup into an empty database, under a new epoch for every house, and await devices.

    Raises:
        NotThere: `backup_missing`.
        UnreadableInput: `backup_unreadable`.
        NotNow: `database_in_use`, `backup_disagrees`, `database_newer`.
    """
    if not file.is_file():
        raise NotThere(BACKUP_MISSING, f"There is no file {file}.", "Name it in full.", str(file))
    bring_up_to_date(engine)
    with TemporaryDirectory(prefix="restore-") as folder, _opened(_copied(file, folder)) as copy:
        positions = _readable(copy, file)
        with reading(copy) as source, writing(engine) as target:
            _refuse_house(target)
            _copy_rows(source, target)
            awaited = {}
            for row in every(target, HouseRow):
                end = row.position
                change(target, HouseRow, {"id": row.id}, epoch=new_epoch(), backed_up=end)
                if names := await_devices(target, row.id, row.epoch, end, now):
                    awaited[row.id] = names
            _refuse_disagreement(target, file)
    return Backup(file, positions, awaited)


@contextmanager
def _opened(part: Path) -> Iterator[Engine]:
    """A file of our own, which ends as one plain file without a log beside it."""
    copy = open_database(URL.create("sqlite", database=str(part)))
    try:
        yield copy
    finally:
        copy.dispose()
    with closing(sqlite3.connect(part)) as plain:
        plain.execute("PRAGMA journal_mode=DELETE")


def _copy_rows(source: Connection, target: Connection) -> None:
    for each in SQLModel.metadata.sorted_tables:
        if each.info.get(PASSING):
            continue
        heavy = any(isinstance(column.type, LargeBinary) for column in each.columns)
        at_once = _FEW if heavy else _CHUNK
        rows = source.execute(select(each), execution_options={"yield_per": at_once})
        for part in rows.mappings().partitions():
            target.execute(insert(each), [dict(row) for row in part])


def _copied(file: Path, folder: str) -> Path:
    try:
        return shutil.copyfile(file, Path(folder, "backup.db"))
    except OSError as error:
        raise _unreadable(file, _reason(error)) from error


def _readable(copy: Engine, file: Path) -> dict[str, int]:
    """The journal position of each house in a backup that is one, and whose books agree."""
    try:
        bring_up_to_date(copy)
        positions = _verified(copy, file)
    except DatabaseError as error:
        raise _unreadable(file, _reason(error)) from error
    if not positions:
        raise _unreadable(file, "there is no house in it")
    return positions


def _verified(copy: Engine, file: Path) -> dict[str, int]:
    with reading(copy) as connection:
        _refuse_disagreement(connection, file)
        return {row.id: row.position for row in every(connection, HouseRow)}


def _refuse_house(target: Connection) -> None:
    if every(target, HouseRow):
        raise NotNow(
            DATABASE_IN_USE,
            "This database has a house already.",
            "Restore into an empty database.",
        )


def _refuse_disagreement(connection: Connection, file: Path) -> None:
    for house in every(connection, HouseRow):
        if problems := disagreements(connection, house.id):
            raise NotNow(
                BACKUP_DISAGREES,
                f"The books in {file} do not agree: {problems[0]}",
                "Run verify on the database it was made from.",
                value=str(file),
            )


def _unreadable(file: Path, why: str) -> UnreadableInput:
    problem = f"{file} cannot be read as a backup: {why}."
    return UnreadableInput(BACKUP_UNREADABLE, problem, "Name another backup.", value=str(file))


def _reason(error: OSError | DatabaseError) -> str:
    return str(error.strerror if isinstance(error, OSError) else error.orig)


def _to_the_disk(path: Path) -> None:
    """Wait until a file, or the name a folder has for it, would survive a power cut."""
    if path.is_dir() and not hasattr(os, "O_DIRECTORY"):
        return  # this system writes names through, and opens no folders
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
