"""Letting people in and out: for managers."""

from functools import partial

from litestar import post
from sqlalchemy import Connection

from pantry.access import sessions, ways_in
from pantry.access.people import must_be_there
from pantry.http.bodies import Ended, OfPerson, WayIn, read
from pantry.http.served import Asking, served
from pantry.http.who import manager
from pantry.rules.house_time import write_instant


@post("/api/ways-in", status_code=200)
async def make_way_in(request: Asking) -> WayIn:
    """A one-time code for a person to set a password of their own with; it is shown once."""
    who, of, body = manager(request), served(request), await read(request, OfPerson)

    def make(connection: Connection) -> WayIn:
        person = must_be_there(connection, who.house, body.person)
        code, expires_at = ways_in.make(connection, person, of.clock().replace(microsecond=0))
        return WayIn(code, write_instant(expires_at))

    return await of.write(who.house, make)


@post("/api/sessions/end", status_code=200)
async def end_sessions(request: Asking) -> Ended:
    """End every session of a person: a lost phone, somebody who has left the house."""
    who, of, body = manager(request), served(request), await read(request, OfPerson)
    person = await of.read(partial(must_be_there, house=who.house, name=body.person))
    ended = await of.write(who.house, partial(sessions.end_all, house=who.house, person=person.id))
    of.news.wake_all()
    return Ended(ended)
