"""Who is signed in, in what house, and what they may do."""

from functools import partial

import msgspec
from litestar import get
from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.commands.rights import READS, commands_of
from pantry.http.bodies import May, Me, OfHouse, OnDevice, Person
from pantry.http.served import Asking, Served, served
from pantry.records.rows import one
from pantry.records.tables import DeviceRow
from pantry.reports.asked import ASKED
from pantry.reports.shapes.written import Role
from pantry.reports.view import View, view
from pantry.rules.house_time import write_instant


@get("/api/me")
async def me(request: Asking) -> Me:
    """Who is signed in, in what house, and what they may do."""
    return await about(served(request), request.user)


async def about(of: Served, who: Signed, token: str | None = None) -> Me:
    """What somebody is told of themselves, with the token where it was asked for."""
    found = await of.read(partial(_seen, of=of, who=who))
    return msgspec.structs.replace(found, token=token)


def _seen(connection: Connection, of: Served, who: Signed) -> Me:
    seen = view(connection, who.house, of.now())
    return Me(
        person=Person(who.person, who.name, msgspec.convert(who.role, Role)),
        house=_house(seen, sends_mail=of.mail is not None),
        now=write_instant(seen.now),
        epoch=seen.row.epoch,
        position=seen.row.position,
        may=May(
            commands=commands_of(who.role),
            reports=sorted(name for name in ASKED if who.role in READS.get(name, frozenset())),
        ),
        device=_device(connection, who),
    )


def _device(connection: Connection, who: Signed) -> OnDevice | None:
    if who.device is None:
        return None
    row = one(connection, DeviceRow, house=who.house, id=who.device)
    return OnDevice(row.id, row.name)


def _house(seen: View, *, sends_mail: bool) -> OfHouse:
    row = seen.row
    return OfHouse(
        id=row.id,
        name=row.name,
        zone=row.zone,
        currency=row.currency,
        unit_system=row.unit_system,
        decimal_mark=row.decimal_mark,
        notice=row.notice,
        sends_mail=sends_mail,
    )
