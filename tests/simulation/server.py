"""The server's process and its disk: the real writer on a real database, and what befalls them.

Requests that are under way together are done in one group, one durable commit. A power cut before
the commit rolls the group back and ends the process; one after it loses the answers only; a commit
that fails (a full disk) rolls back and the process lives on.
"""

import threading
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from unittest.mock import patch

from sqlalchemy import Connection, event

from pantry.records import backup
from pantry.records.database import writing
from pantry.records.rows import one
from pantry.records.tables import HouseRow
from pantry.records.writer import Writer
from tests.simulation.exchange import Exchange
from tests.simulation.premises import Premises
from tests.simulation.thornwick import BEGINS, ID

BEFORE_COMMIT, AFTER_COMMIT, COMMIT_FAILS = "before commit", "after commit", "commit fails"


class PowerCut(Exception):  # noqa: N818 - the power is cut; the program does not err
    """The process ended here, or could not write."""


@dataclass(frozen=True)
class Done:
    """What became of one piece of work: the reply that left the process, and what is durable."""

    reply: dict | None
    committed: dict | None


class Server:
    """One process after the other on one disk, and the backups on another."""

    def __init__(self, premises: Premises, exchange: Exchange) -> None:
        self._premises = premises
        self.exchange = exchange
        self.engine = premises.engine
        self._fails = False
        self._backups: list[Path] = []
        self._writer = Writer(self.engine)
        event.listen(self.engine, "commit", self._at_commit)

    def close(self) -> None:
        self._writer.close()
        event.remove(self.engine, "commit", self._at_commit)

    # Requests

    def serve(self, requests: list[dict], now: datetime, fault: str | None = None) -> list[Done]:
        """Answer requests that are under way together, in one group."""
        pieces = [
            lambda connection, request=request: self.exchange.answer(connection, request, now)
            for request in requests
        ]
        return self.do(pieces, fault)

    def do(self, pieces: list[Callable], fault: str | None = None) -> list[Done]:
        """Do pieces of work in one group of the real writer.

        Raises:
            Exception: whatever the product raised.
        """
        gate = threading.Event()
        self._writer.submit("nobody", lambda _: gate.wait())
        futures = [self._writer.submit(ID, piece) for piece in pieces]
        if fault in (BEFORE_COMMIT, COMMIT_FAILS):
            self._writer.submit(ID, lambda _: self._break())
        gate.set()
        replies = [self._result(future) for future in futures]
        if fault in (BEFORE_COMMIT, AFTER_COMMIT):
            self.restart()
        lost = fault is not None
        return [Done(None if lost else reply, reply) for reply in replies]

    def _result(self, future) -> dict | None:
        try:
            return future.result()
        except PowerCut:
            return None

    def _break(self) -> None:
        self._fails = True

    def _at_commit(self, _connection: Connection) -> None:
        if self._fails:
            self._fails = False
            raise PowerCut

    def restart(self) -> None:
        """The process ended; another begins on the same disk."""
        self._writer.close()
        self.engine.dispose()
        self._writer = Writer(self.engine)

    # Backups

    @property
    def backups(self) -> int:
        return len(self._backups)

    def back_up(self) -> int:
        """A verified backup; answers the position it reaches. The two newest are kept."""
        file = self._premises.folder / f"backup-{len(list(self._premises.folder.glob('backup-*')))}"
        made = backup.back_up(self.engine, file)
        self._backups = [*self._backups, file][-2:]
        return made.positions[ID]

    def back_up_in_vain(self) -> None:
        """A power cut while a backup is being verified."""
        with patch.object(backup, "_refuse_disagreement", side_effect=PowerCut):
            try:
                self.back_up()
            except PowerCut:
                self.restart()

    def lose_disk(self, new_epoch: str, *, older: bool) -> int:
        """The disk is lost, and a backup restored; answers the position it reaches.

        Args:
            new_epoch: of the restored books.
            older: the newest backup could not be read, and the one before is taken.
        """
        self._writer.close()
        self._premises.remove_books()
        file = self._backups[0] if older else self._backups[-1]
        self._backups = [file]
        restored = backup.restore(self.engine, file, lambda: new_epoch, BEGINS)
        with writing(self.engine) as connection:
            self.exchange.begin_gathering(connection)
        self._writer = Writer(self.engine)
        return restored.positions[ID]

    def house(self) -> HouseRow:
        with self.engine.connect() as connection:
            return one(connection, HouseRow, id=ID)
