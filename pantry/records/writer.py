"""The one writer a house has (SY6): short pieces of work grouped into one durable commit.

A single thread owns the writing connection. What was submitted while the last commit was on its
way to the disk is done together in the next transaction, each piece in a savepoint of its own, and
answered only once the whole is durable. Nothing is answered that a power cut could still take.

A transaction holds one house. Houses take turns, and each keeps the order in which it submitted.
Nothing that happens to one group ends the thread: a commit that fails, a database that another
program holds or a server that was started anew is told to those who wait, and the next group is
tried. Work is not repeated here: a command may be sent again by whoever gave it, and is kept once.
"""

import threading
from collections import deque
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from types import TracebackType
from typing import Any, Self, TypeVar

from sqlalchemy import Connection, Engine

from pantry.records.books import hold_house
from pantry.records.database import writing

T = TypeVar("T")

GROUP = 64
"""At most so many pieces of work share one commit."""


@dataclass(frozen=True, slots=True)
class _Work:
    """A piece of work that waits, and who is told."""

    do: Callable[[Connection], Any]
    future: "Future[Any]"


class Writer:
    """Does submitted work in order, each piece all or nothing, several to a commit.

    The house's row is held for the transaction, so that two server processes on one PostgreSQL
    database still write one sequence; on SQLite `BEGIN IMMEDIATE` has done the same before.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._waiting: dict[str, deque[_Work]] = {}
        self._changed = threading.Condition()
        self._closing = False
        self._thread = threading.Thread(target=self._run, name="writer", daemon=True)
        self._thread.start()

    def submit(self, house: str, work: Callable[[Connection], T]) -> "Future[T]":
        """Queue one piece of work for a house; the future is done when it is durable.

        A future that is cancelled while it waits is not worked on; later it cannot be.

        Raises:
            RuntimeError: the writer is closed.
        """
        future: Future[T] = Future()
        with self._changed:
            if self._closing:
                raise RuntimeError("the writer is closed")
            self._waiting.setdefault(house, deque()).append(_Work(work, future))
            self._changed.notify()
        return future

    def close(self) -> None:
        """Do what is queued, then stop."""
        with self._changed:
            self._closing = True
            self._changed.notify()
        self._thread.join()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        _error: BaseException | None,
        _trace: TracebackType | None,
    ) -> None:
        self.close()

    def _run(self) -> None:
        while turn := self._next_turn():
            house, group = turn
            # from here on a submitter that goes away cannot cancel what may be committed
            running = [work for work in group if work.future.set_running_or_notify_cancel()]
            if running:
                self._do(house, running)

    def _next_turn(self) -> tuple[str, list[_Work]] | None:
        """The house that has waited longest and what it waits for; None when all is done."""
        with self._changed:
            self._changed.wait_for(lambda: self._waiting or self._closing)
            if not self._waiting:
                return None
            house = next(iter(self._waiting))
            queued = self._waiting.pop(house)
            group = [queued.popleft() for _ in range(min(GROUP, len(queued)))]
            if queued:
                self._waiting[house] = queued
            return house, group

    def _do(self, house: str, group: list[_Work]) -> None:
        try:
            with writing(self._engine) as connection:
                hold_house(connection, house)
                results = [_one(connection, work) for work in group]
        except BaseException as error:  # noqa: BLE001 - whoever waits must learn that it failed
            results = [_failing(work, error) for work in group]
        for tell in results:
            tell()


def _one(connection: Connection, work: _Work) -> Callable[[], None]:
    """Do one piece of work, or nothing of it.

    The savepoint is written out: where the work hid an error of PostgreSQL's, releasing it fails,
    and must still be rolled back to, which SQLAlchemy's own no longer does by then.
    """
    connection.exec_driver_sql("SAVEPOINT piece")
    try:
        result = work.do(connection)
        connection.exec_driver_sql("RELEASE SAVEPOINT piece")
    except BaseException as error:  # noqa: BLE001 - only this piece failed; its submitter is told
        connection.exec_driver_sql("ROLLBACK TO SAVEPOINT piece")
        return _failing(work, error)
    return lambda: work.future.set_result(result)


def _failing(work: _Work, error: BaseException) -> Callable[[], None]:
    return lambda: work.future.set_exception(error)
