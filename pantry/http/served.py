"""What every request works with: the books, the one writer, a few readers, two clocks."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TypeVar

import anyio.to_thread
from anyio import CapacityLimiter
from litestar import Request
from litestar.datastructures import State
from sqlalchemy import Connection, Engine

from pantry.access.sessions import Signed
from pantry.http.news import News
from pantry.mail.mail_server import MailServer
from pantry.records.database import reading
from pantry.records.writer import Writer

T = TypeVar("T")

Asking = Request[Signed, str, State]
"""A request whose `user` is who is signed in, and whose `auth` is the token."""

READERS = 4
HASHERS = 2
"""A password takes 64 MiB and a tenth of a second; more at once would only wait for each other."""


@dataclass
class Served:
    """What is served.

    Attributes:
        engine: of the books.
        writer: the one of this process.
        now: what time it is for the houses; a demo house has a clock of its own.
        clock: what time it is for sessions and codes.
        secret: of the first manager; empty where none is wanted.
        only: the one house that is served, by name or id; None: all of the database.
        client: the folder with the client's files.
        address: where phones reach the house, printed on labels; empty: as whoever asks did.
        watches: alerts are raised by the server itself.
        clock_stands: the houses' time is fixed, so that nothing rises by time alone.
        mail: who takes the house's letters; None: it sends none.
    """

    engine: Engine
    writer: Writer
    now: Callable[[], datetime]
    clock: Callable[[], datetime]
    secret: str
    only: str | None
    client: Path
    address: str = ""
    watches: bool = False
    clock_stands: bool = False
    mail: MailServer | None = None
    news: News = field(init=False)
    _readers: CapacityLimiter = field(init=False)
    _hashers: CapacityLimiter = field(init=False)

    def __post_init__(self) -> None:
        """Set the limits up."""
        self._readers = CapacityLimiter(READERS)
        self._hashers = CapacityLimiter(HASHERS)
        self.news = News(self.read)

    async def read(self, ask: Callable[[Connection], T]) -> T:
        """Ask the books, in a thread of their own."""
        return await anyio.to_thread.run_sync(partial(self._read, ask), limiter=self._readers)

    def _read(self, ask: Callable[[Connection], T]) -> T:
        with reading(self.engine) as connection:
            return ask(connection)

    async def write(self, house: str, work: Callable[[Connection], T]) -> T:
        """Have the writer do a piece of work; answers when it is durable."""
        return await asyncio.wrap_future(self.writer.submit(house, work))

    async def hash(self, work: Callable[[], T]) -> T:
        """Check or make the hash of a password, beside everything else."""
        return await anyio.to_thread.run_sync(work, limiter=self._hashers)


def served(request: Asking) -> Served:
    """What the application of a request serves."""
    found: Served = request.app.state.served
    return found
