"""The one writer a house has (SY6): short pieces of work grouped into one durable commit.

A single thread owns the writing connection. What was submitted while the last commit was on its
way to the disk is done together in the next transaction, each piece in a savepoint of its own, and
answered only once the whole is durable. Nothing is answered that a power cut could still take.
"""

import queue
import threading
from collections.abc import Callable
from concurrent.futures import Future
from types import TracebackType
from typing import Any, Self, TypeVar

from sqlalchemy import Connection, Engine, text

from pantry.records.database import writing

T = TypeVar("T")

GROUP = 64
"""At most so many pieces of work share one commit."""

_LOCK_HOUSE = text("SELECT id FROM house WHERE id = :house FOR UPDATE")


class Writer:
    """Does submitted work in order, each piece all or nothing, several to a commit.

    On PostgreSQL the house's row is locked for the transaction, so that two server processes on
    one database still write one sequence; on SQLite `BEGIN IMMEDIATE` does the same.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._waiting: queue.SimpleQueue[_Work | None] = queue.SimpleQueue()
        self._held: _Work | None = None
        self._closing = False
        self._thread = threading.Thread(target=self._run, name="writer", daemon=True)
        self._thread.start()

    def submit(self, house: str, work: Callable[[Connection], T]) -> "Future[T]":
        """Queue one piece of work for a house; the future is done when it is durable."""
        future: Future[T] = Future()
        self._waiting.put(_Work(house, work, future))
        return future

    def close(self) -> None:
        """Do what is queued, then stop."""
        self._waiting.put(None)
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
        while group := self._next_group():
            self._do(group)

    def _next_group(self) -> "list[_Work]":
        first = self._held or (None if self._closing else self._waiting.get())
        self._held = None
        if first is None:
            return []
        group = [first]
        while len(group) < GROUP and not self._closing:
            try:
                work = self._waiting.get_nowait()
            except queue.Empty:
                break
            if work is None:
                self._closing = True
            elif work.house != first.house:
                self._held = work
                break
            else:
                group.append(work)
        return group

    def _do(self, group: "list[_Work]") -> None:
        results: list[Callable[[], None]] = []
        try:
            with writing(self._engine) as connection:
                if self._engine.dialect.name == "postgresql":
                    connection.execute(_LOCK_HOUSE, {"house": group[0].house})
                results = [_one(connection, work) for work in group]
        except BaseException as error:  # noqa: BLE001 - whoever waits must learn that it failed
            results = [_failing(work, error) for work in group]
        for tell in results:
            tell()


class _Work:
    """A piece of work that waits, for which house, and who is told."""

    __slots__ = ("future", "house", "work")

    def __init__(
        self, house: str, work: Callable[[Connection], Any], future: "Future[Any]"
    ) -> None:
        self.house = house
        self.work = work
        self.future = future


def _one(connection: Connection, work: _Work) -> Callable[[], None]:
    savepoint = connection.begin_nested()
    try:
        result = work.work(connection)
    except Exception as error:  # noqa: BLE001 - only this piece failed; its submitter is told
        savepoint.rollback()
        return _failing(work, error)
    savepoint.commit()
    return lambda: work.future.set_result(result)


def _failing(work: _Work, error: BaseException) -> Callable[[], None]:
    return lambda: work.future.set_exception(error)
