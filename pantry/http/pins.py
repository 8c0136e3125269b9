"""Who it is, by PIN, on a device of the house (SY13)."""

from functools import partial

from litestar import Response, post
from sqlalchemy import Connection

from pantry.access import devices, passwords, pins, ways_in
from pantry.access.devices import Known
from pantry.access.people import nobody_called, person_named
from pantry.access.refused import sign_in_failed
from pantry.access.throttle import was_right
from pantry.http.bodies import EnterPin, Me, SetPin
from pantry.http.served import Asking, served
from pantry.http.signing_in import SHORT, begun, came_in, count, counted_for, signed_in
from pantry.http.who import OPEN, key_of
from pantry.records.tables import PersonRow


@post("/api/pin", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def enter_pin(request: Asking) -> Response[Me]:
    """Come in by PIN, on a device of the house."""
    of, body = await begun(request, EnterPin)
    device, person = await _tried(request, body.person)
    called = person.id if person else ""
    known = await of.read(partial(pins.kept, house=device.house, person=called))
    if not await of.hash(partial(passwords.agrees, known, body.pin)) or person is None:
        raise devices.pin_wrong()
    return await _come_in(request, device, person)


@post("/api/pin/set", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def set_pin(request: Asking) -> Response[Me]:
    """Choose one's own PIN, by password or by a one-time way in, and come in."""
    of, body = await begun(request, SetPin)
    pins.refuse_unfit(body.pin)
    device, person = await _tried(request, body.person)
    if person is None:
        raise nobody_called(body.person)
    counted = counted_for(request, "password", device.house, body.person)
    await count(of, counted)
    if body.password is not None:
        known = await of.read(partial(passwords.kept, house=device.house, person=person.id))
        if not await of.hash(partial(passwords.agrees, known, body.password)):
            raise sign_in_failed(body.person)
    pin = await of.hash(partial(passwords.hashed, body.pin))

    def keep(connection: Connection) -> None:
        if body.password is None:
            ways_in.use_up(connection, person, body.code or "", of.clock())
        was_right(connection, counted)
        pins.keep(connection, device.house, person.id, pin, of.clock())

    await of.write(device.house, keep)
    return await _come_in(request, device, person)


async def _tried(request: Asking, name: str) -> tuple[Known, PersonRow | None]:
    """The device that asks and whom it names, once the try is counted."""
    of, key = served(request), key_of(request)
    device = await of.read(partial(devices.must_be_known, key=key))
    found = await of.read(partial(person_named, house=device.house, name=name))
    person = found if found and devices.may_use(found) else None
    called = person.id if person else ""
    tried = partial(devices.count_try, device=device, person=called, now=of.clock())
    await of.write(device.house, tried)
    return device, person


async def _come_in(request: Asking, device: Known, person: PersonRow) -> Response[Me]:
    of = served(request)

    def enter(connection: Connection) -> str:
        devices.must_be_known(connection, key_of(request))
        devices.was_right(connection, device, person.id)
        return came_in(connection, of, person, key_of(request))

    token = await of.write(device.house, enter)
    return await signed_in(request, token, keep="cookie")
