"""Phones become devices of the house, by a code that a manager made (SY13)."""

from datetime import datetime
from functools import partial

from litestar import Response, get, post
from litestar.datastructures import Cookie
from sqlalchemy import Connection

from pantry import world
from pantry.access import devices, pins
from pantry.access.devices import Known
from pantry.access.throttle import was_right
from pantry.commands import door
from pantry.http.bodies import (
    DeviceCode,
    EnrolByCode,
    NameDevice,
    OfDevice,
    OnDevice,
    OnePerson,
    ThisDevice,
    read,
)
from pantry.http.edge import DEVICE_COOKIE
from pantry.http.qr_code import as_svg
from pantry.http.served import Asking, served
from pantry.http.signing_in import SHORT, begun, count, counted_for
from pantry.http.who import OPEN, key_of, manager
from pantry.records.rows import every, one
from pantry.records.tables import DeviceCodeRow, HouseRow, PersonRow
from pantry.refusals import NotNow
from pantry.rules.house_time import write_instant

YEARS = 60 * 60 * 24 * 400
"""Seconds that a browser keeps the key of its device: as long as browsers keep anything."""

PATH = "/enrol"
"""Where the client takes a code up; the code stands behind the `#`, which is never sent."""


@post("/api/device-codes", status_code=200)
async def make_device_code(request: Asking) -> DeviceCode:
    """A one-time code that makes a phone one of the house's; for managers."""
    who, of, body = manager(request), served(request), await read(request, NameDevice)
    make = partial(devices.make_code, house=who.house, name=body.name.strip(), made_by=who.name)
    now = of.clock().replace(microsecond=0)
    code, expires_at = await of.write(who.house, partial(make, now=now))
    until = of.now().replace(microsecond=0) + (expires_at - now)
    address = f"{request.base_url}".rstrip("/") + f"{PATH}#{code}"
    return DeviceCode(code, write_instant(until), address, as_svg(address).decode())


@post("/api/devices/enrol", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def enrol_by_code(request: Asking) -> Response[ThisDevice]:
    """Become one of the house's devices, by a code that a manager made."""
    of, body = await begun(request, EnrolByCode)
    counted = counted_for(request, "device", "", "")
    await count(of, counted)

    def work(connection: Connection) -> tuple[str, ThisDevice]:
        row = devices.use_up(connection, body.code, of.clock())
        was_right(connection, counted)
        device = world.new_id()
        _enrol(connection, row, device, of.now())
        key = devices.give_key(connection, row.house, device)
        return key, _this(connection, devices.must_be_known(connection, key))

    key, told = await of.write("", work)
    of.news.ring()
    return Response(told, status_code=200, cookies=[_cookie(key)])


@get("/api/device", opt=OPEN)
async def this_device(request: Asking) -> ThisDevice:
    """What device of the house this is, and who may come in on it."""
    of = served(request)
    key = key_of(request)

    def look(connection: Connection) -> ThisDevice:
        return _this(connection, devices.must_be_known(connection, key))

    return await of.read(look)


@post("/api/devices/unlock", status_code=204)
async def unlock_device(request: Asking) -> None:
    """Let PINs be tried on a device again; for managers."""
    who, of, body = manager(request), served(request), await read(request, OfDevice)
    await of.write(who.house, partial(devices.unlock, house=who.house, device=body.device))
    of.news.ring()


def _enrol(connection: Connection, row: DeviceCodeRow, device: str, now: datetime) -> None:
    """Enrol it in the name of the manager who made the code.

    Raises:
        NotNow: with the code that the command was refused for.
    """
    command = {
        "id": world.new_id(),
        "kind": "enrol_device",
        "at": write_instant(now.replace(microsecond=0)),
        "person": row.made_by,
        "body": {"device": device, "name": row.name},
    }
    (answer,) = door.apply(connection, row.house, [command], now)
    if answer.problem is not None:
        why = answer.problem
        raise NotNow(why.code, why.detail, why.todo, value=why.value, field="code")


def _this(connection: Connection, device: Known) -> ThisDevice:
    house = one(connection, HouseRow, id=device.house)
    with_pin = pins.who_has_one(connection, device.house)
    rows = every(connection, PersonRow, house=device.house)
    locked = devices.is_locked(connection, device)
    people = [
        OnePerson(row.name, row.id in with_pin)
        for row in sorted(rows, key=lambda row: row.name)
        if devices.may_use(row)
    ]
    return ThisDevice(OnDevice(device.device, device.name), house.name, people, locked)


def _cookie(key: str) -> Cookie:
    return Cookie(
        DEVICE_COOKIE,
        path="/",
        value=key,
        max_age=YEARS,
        secure=True,
        httponly=True,
        samesite="strict",
    )
