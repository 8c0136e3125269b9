"""A folder in memory with an empty and a founded database, and one engine for the books.

The tables are made by the real migrations, once; histories begin with a copy of the file. A backup
made or restored in a history begins with a copy of the empty file too, in place of running the
same migrations again, and its engine is one that has compiled the statements before: that, and
nothing else of the product, is shortened.
"""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Self
from unittest.mock import patch

from sqlalchemy import URL, Engine, make_url

from pantry.commands import door
from pantry.records import backup
from pantry.records.database import open_database, writing
from pantry.records.schema import bring_up_to_date
from tests.simulation.thornwick import BEGINS, ID, found_house, founding

_IN_MEMORY = Path("/dev/shm")  # noqa: S108 - where the system keeps files in memory


class Premises:
    """Where histories are played, one after the other."""

    def __init__(self) -> None:
        inside = _IN_MEMORY if _IN_MEMORY.is_dir() else None
        self._temporary = TemporaryDirectory(prefix="simulation-", dir=inside)
        self.folder = Path(self._temporary.name)
        self.books = self.folder / "books.db"
        self._empty = self.folder / "empty.db"
        self._founded = self.folder / "founded.db"
        self.engine = open_database(f"sqlite:///{self.books}")
        self._make_empty()
        self._found()
        self._slot = self.folder / "slot.db"
        self._other = open_database(f"sqlite:///{self._slot}")
        self._shortened = patch.multiple(
            backup, bring_up_to_date=self._begin_with_empty, open_database=self._open_other
        )

    def __enter__(self) -> Self:
        self._shortened.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._shortened.stop()
        self.engine.dispose()
        self._other.dispose()
        self._temporary.cleanup()

    def begin(self) -> None:
        """The house as it was founded, and no backups."""
        self.remove_books()
        for file in self.folder.glob("backup-*"):
            file.unlink()
        shutil.copyfile(self._founded, self.books)

    def remove_books(self) -> None:
        """The disk of the server is gone."""
        self.engine.dispose()
        for file in self.folder.glob("books.db*"):
            file.unlink()

    def _make_empty(self) -> None:
        with _closing(open_database(f"sqlite:///{self._empty}")) as engine:
            bring_up_to_date(engine)

    def _found(self) -> None:
        shutil.copyfile(self._empty, self._founded)
        with (
            _closing(open_database(f"sqlite:///{self._founded}")) as engine,
            writing(engine) as connection,
        ):
            found_house(connection)
            answers = door.apply(connection, ID, founding(), BEGINS)
            assert all(answer.outcome == "applied" for answer in answers), answers

    def _open_other(self, url: str | URL) -> Engine:
        """The engine that is kept for backups, on another file."""
        self._slot.unlink(missing_ok=True)
        self._slot.symlink_to(str(make_url(url).database))
        return self._other

    def _begin_with_empty(self, engine: Engine) -> None:
        file = Path(str(engine.url.database))
        if not file.exists():
            shutil.copyfile(self._empty, file)
        bring_up_to_date(engine)


@contextmanager
def _closing(engine: Engine) -> Iterator[Engine]:
    try:
        yield engine
    finally:
        engine.dispose()
