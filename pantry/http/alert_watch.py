"""Raises alerts by itself, at the second at which they rise, for as long as the server runs.

It looks at the plan of each house when something rises next by time alone, and when the house has
moved. Several processes on one database may all watch: what one has written the others find.
"""

import logging
from datetime import datetime
from functools import partial

import anyio
from sqlalchemy import Connection

from pantry.access.people import houses
from pantry.commands.rights import READS
from pantry.http.post_room import send_waiting
from pantry.http.served import Served
from pantry.records import alerts
from pantry.records.alerts import Found
from pantry.reports.alert_look import look
from pantry.reports.view import view

LOOKS_EVERY = 30.0
"""Seconds after which the houses are looked at for what somebody has changed meanwhile."""

LOOKS = 5
"""So often in a row a house is looked at that moves while it is looked at."""

_log = logging.getLogger(__name__)


class AlertWatch:
    """Watches the houses that are served."""

    def __init__(self, of: Served) -> None:
        self._of = of
        self._closed = anyio.Event()
        self._looked: dict[str, int] = {}
        self._next: dict[str, datetime | None] = {}

    def close(self) -> None:
        """Stop, when what was begun is done."""
        self._closed.set()

    async def watch(self) -> None:
        """Look, and sleep until it is time to look again; once only where the clock stands."""
        while not self._closed.is_set():
            await self.look_round()
            if self._of.clock_stands:
                return
            with anyio.move_on_after(self._until_next()):
                await self._closed.wait()

    async def look_round(self) -> None:
        """Look at every house that has moved, or for which it is time, and send what waits."""
        of = self._of
        try:
            found = await of.read(partial(_changes, only=of.only))
        except Exception:  # noqa: BLE001 - a database that is away now may be back at the next look
            _log.exception("the houses could not be looked at for alerts")
            return
        for house, change in found.items():
            try:
                if self._is_due(house, change):
                    await self._look(house)
                if of.mail is not None:
                    await send_waiting(of, of.mail, house)
            except Exception:  # noqa: BLE001 - one house, or one hour, must not silence the others
                _log.exception("the alerts of %s could not be raised", house)

    def _is_due(self, house: str, change: int) -> bool:
        at = self._next.get(house)
        return self._looked.get(house) != change or (at is not None and at <= self._of.now())

    async def _look(self, house: str) -> None:
        """Look until there is nothing more to write."""
        of = self._of
        for _ in range(LOOKS):
            now = of.now()
            found = await of.read(partial(self._found, house=house, now=now))
            self._next[house] = found.next_at
            if found.is_nothing:
                self._looked[house] = found.change
                return
            if await of.write(house, partial(alerts.keep, house=house, found=found, now=now)):
                of.news.ring()

    def _found(self, connection: Connection, house: str, now: datetime) -> Found:
        of = self._of
        told_to = READS["alerts"] if of.mail is not None else None
        seen = view(connection, house, now)
        return look(seen, told_to=told_to, clock=of.clock(), address=of.address)

    def _until_next(self) -> float:
        """Seconds until something rises, or the houses are to be looked at."""
        moments = [at for at in self._next.values() if at is not None]
        if not moments:
            return LOOKS_EVERY
        return max(0.0, min(LOOKS_EVERY, (min(moments) - self._of.now()).total_seconds()))


def _changes(connection: Connection, only: str | None) -> dict[str, int]:
    """How far each house that is served has come."""
    return {row.id: row.change for row in houses(connection, only)}
