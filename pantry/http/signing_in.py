"""Signing in and out, by password or by a one-time way in.

A try is counted before the password is looked at, and taken back when it was right.
"""

from datetime import timedelta
from functools import partial
from typing import TypeVar

from litestar import Response, post
from sqlalchemy import Connection

from pantry.access import devices, passwords, sessions, throttle, ways_in
from pantry.access.people import house_named, person_named
from pantry.access.refused import not_signed_in, sign_in_failed
from pantry.access.throttle import Counted, by_address, by_person
from pantry.http.bodies import ChangePassword, Me, SignIn, UseWayIn, read
from pantry.http.edge import refuse_unless_private
from pantry.http.me import about
from pantry.http.served import Asking, Served, served
from pantry.http.who import OPEN, cookie, key_of, token_of
from pantry.records.slugs import slug
from pantry.records.tables import HouseRow, PersonRow

T = TypeVar("T")

SHORT = 20_000
"""Bytes of a body that anybody may send."""


@post("/api/sign-in", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def sign_in(request: Asking) -> Response[Me]:
    """Sign in by name and password."""
    of, body = await begun(request, SignIn)
    house = await of.read(partial(house_named, name=body.house, only=of.only))
    counted = counted_for(request, "password", house.id if house else "", body.name)
    await count(of, counted)
    person, known = await of.read(partial(_known, house=house, name=body.name))
    right = await of.hash(partial(passwords.agrees, known, body.password))
    if not right or person is None or known is None:
        raise sign_in_failed(body.name)
    outdated = passwords.is_outdated(known)
    anew = await of.hash(partial(passwords.hashed, body.password)) if outdated else None

    def enter(connection: Connection) -> str:
        if passwords.kept(connection, person.house, person.id) != known:
            raise sign_in_failed(body.name)  # it was changed while it was being looked at
        return let_in(connection, of, person, counted, anew, key_of(request))

    token = await of.write(person.house, enter)
    return await signed_in(request, token, keep=body.keep)


@post("/api/way-in", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def way_in(request: Asking) -> Response[Me]:
    """Set one's own password with a one-time code, and sign in."""
    of, body = await begun(request, UseWayIn)
    house = await of.read(partial(house_named, name=body.house, only=of.only))
    passwords.refuse_weak(body.password, body.name, *([house.name] if house else []))
    counted = counted_for(request, "way in", house.id if house else "", body.name)
    await count(of, counted)
    known = await of.hash(partial(passwords.hashed, body.password))

    def use(connection: Connection) -> str:
        found = person_named(connection, house.id, body.name) if house else None
        person = ways_in.use_up(connection, found, body.code, of.clock())
        sessions.end_all(connection, person.house, person.id)
        return let_in(connection, of, person, counted, known, key_of(request))

    token = await of.write(house.id if house else "", use)
    of.news.wake_all()
    return await signed_in(request, token, keep=body.keep)


@post("/api/sign-out", status_code=204)
async def sign_out(request: Asking) -> Response[None]:
    """End the session on the server."""
    of = served(request)
    await of.write(request.user.house, partial(sessions.end, token=request.auth))
    of.news.wake_all()
    return Response(None, status_code=204, cookies=[cookie("", lasts=timedelta(0))])


@post("/api/password", status_code=204)
async def change_password(request: Asking) -> Response[None]:
    """Set another password for oneself; every other session of one's own ends."""
    of, body = await begun(request, ChangePassword)
    who = request.user
    passwords.refuse_weak(body.new, who.name)
    counted = counted_for(request, "password", who.house, who.name)
    await count(of, counted)
    known = await of.read(partial(passwords.kept, house=who.house, person=who.person))
    if not await of.hash(partial(passwords.agrees, known, body.old)):
        raise sign_in_failed(who.name)
    anew = await of.hash(partial(passwords.hashed, body.new))

    def set_anew(connection: Connection) -> None:
        if sessions.signed(connection, who.session, of.clock()) is None:
            raise not_signed_in()
        passwords.keep(connection, who.house, who.person, anew, of.clock())
        sessions.end_all(connection, who.house, who.person, but=who.session)
        throttle.was_right(connection, counted)

    await of.write(who.house, set_anew)
    of.news.wake_all()
    return Response(None, status_code=204)


async def begun(request: Asking, shape: type[T]) -> tuple[Served, T]:
    """What is served and the body of a request that carries a secret."""
    refuse_unless_private(request)
    return served(request), await read(request, shape)


def counted_for(request: Asking, what: str, house: str, name: str) -> tuple[Counted, ...]:
    """What a try of this request is counted for."""
    address = request.client.host if request.client else ""
    return by_person(what, house, slug(name)), by_address(address)


async def count(of: Served, counted: tuple[Counted, ...]) -> None:
    """Count a try that is about to be looked at.

    Raises:
        TooManyTries: `too_many_tries`.
    """
    await of.write("", partial(throttle.count, counted=counted, now=of.clock()))


def _known(
    connection: Connection, house: HouseRow | None, name: str
) -> tuple[PersonRow | None, str | None]:
    person = person_named(connection, house.id, name) if house else None
    return person, passwords.kept(connection, person.house, person.id) if person else None


def let_in(
    connection: Connection,
    of: Served,
    person: PersonRow,
    counted: tuple[Counted, ...],
    known: str | None,
    key: str | None = None,
) -> str:
    """Sign somebody in, with a new password where there is one; answers the token."""
    if known is not None:
        passwords.keep(connection, person.house, person.id, known, of.clock())
    throttle.was_right(connection, counted)
    return came_in(connection, of, person, key)


def came_in(connection: Connection, of: Served, person: PersonRow, key: str | None) -> str:
    """Begin a session, which is a device's where the browser has the key of one."""
    device = devices.known(connection, key) if key else None
    if device is None or device.revoked or device.house != person.house:
        return sessions.begin(connection, person, of.clock())
    devices.came_in(connection, device, person, of.clock())
    return sessions.begin(connection, person, of.clock(), device.device)


async def signed_in(request: Asking, token: str, *, keep: str) -> Response[Me]:
    """What is answered to somebody who is signed in now; an earlier session here is over."""
    of = served(request)
    who = await of.read(partial(sessions.whose, token=token, now=of.clock()))
    if who is None:
        raise not_signed_in()
    if before := token_of(request):
        await of.write(who.house, partial(sessions.end, token=before))
    as_token = keep == "token"
    told = await about(of, who, token if as_token else None)
    return Response(told, status_code=200, cookies=[] if as_token else [cookie(token)])
