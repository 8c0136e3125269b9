"""News: tells who listens that something has changed, by this process or by another.

A commit of this process rings at once; what another process writes is seen within two seconds, by
looking how far each house has come. News carry no content: they say that there is something.
"""

import logging
from collections.abc import AsyncIterator, Awaitable, Callable
from dataclasses import dataclass, field
from typing import Any

import anyio
import msgspec
from sqlalchemy.exc import SQLAlchemyError

from pantry.reports.changes import Head, heads

LOOKS_EVERY = 2.0
STILL_THERE_EVERY = 20.0

_log = logging.getLogger(__name__)

Read = Callable[[Callable[..., Any]], Awaitable[Any]]


@dataclass(eq=False)
class _Listener:
    """Somebody who listens, and the bell that wakes them."""

    house: str
    bell: anyio.Event = field(default_factory=anyio.Event)

    def wake(self) -> None:
        """Ring; the listener puts up a new bell when it wakes."""
        self.bell.set()


class News:
    """Who listens, and how far the houses have come."""

    def __init__(self, read: Read) -> None:
        self._read = read
        self._listeners: set[_Listener] = set()
        self._heads: dict[str, Head] = {}
        self._rung = anyio.Event()
        self._closed = False

    def ring(self) -> None:
        """Something was committed, or somebody was signed out: look now."""
        self._rung.set()

    def wake_all(self) -> None:
        """Have every listener look whether it may still listen."""
        for listener in self._listeners:
            listener.wake()

    def close(self) -> None:
        """End every stream, so that the server can stop."""
        self._closed = True
        self.ring()
        self.wake_all()

    async def watch(self) -> None:
        """Look how far the houses have come, for as long as the server runs."""
        while not self._closed:
            with anyio.move_on_after(LOOKS_EVERY if self._listeners else None):
                await self._rung.wait()
            self._rung = anyio.Event()
            if self._listeners and not self._closed:
                await self._look()

    async def _look(self) -> None:
        try:
            found: dict[str, Head] = await self._read(heads)
        except SQLAlchemyError as error:
            _log.warning("the books could not be looked at: %s", error)
            return
        before, self._heads = self._heads, found
        for listener in self._listeners:
            if before.get(listener.house) != found.get(listener.house):
                listener.wake()

    async def of(
        self, house: str, may_listen: Callable[[], Awaitable[bool]]
    ) -> AsyncIterator[bytes]:
        """The events of a house: where it stands now, then every change, until one may not."""
        listener, told = _Listener(house), None
        self._listeners.add(listener)
        self.ring()
        try:
            while not self._closed and await may_listen():
                stands = self._heads.get(house)
                if stands is not None and stands != told:
                    told = stands
                    yield _event(stands)
                with anyio.move_on_after(STILL_THERE_EVERY) as quiet:
                    await listener.bell.wait()
                listener.bell = anyio.Event()
                if quiet.cancelled_caught:
                    yield b": still there\n\n"
        finally:
            self._listeners.discard(listener)


def _event(stands: Head) -> bytes:
    data = msgspec.json.encode({"position": stands.position, "change": stands.change})
    return b"event: change\ndata: " + data + b"\n\n"
