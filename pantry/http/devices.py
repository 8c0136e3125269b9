"""Devices after a restore: for managers (SY7)."""

from functools import partial

from litestar import post
from sqlalchemy import Connection

from pantry.commands.gathered import go_on
from pantry.http.bodies import GoOn, WentOn, read
from pantry.http.served import Asking, served
from pantry.http.who import manager
from pantry.records import gathering


@post("/api/devices/go-on", status_code=200)
async def go_on_without(request: Asking) -> WentOn:
    """Wait no longer for a device, or for any that has not handed in what it holds."""
    who, of, body = manager(request), served(request), await read(request, GoOn)
    work = partial(go_on, house=who.house, person=who.person, now=of.now(), device=body.device)
    without = await of.write(who.house, work)

    def still(connection: Connection) -> list[str]:
        waiting = gathering.silent(connection, who.house)
        return gathering.names(connection, who.house, waiting)

    of.news.ring()
    return WentOn(list(without), await of.read(still))
