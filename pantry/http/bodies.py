"""What the routes take and answer, as data; commands and reports have shapes of their own."""

from typing import Annotated, Any, Literal, TypeVar

import msgspec
from msgspec import Meta, Struct

from pantry.commands.answers import Answer, FaultPart
from pantry.commands.gathered import Holding, Restored
from pantry.http.problems import unreadable
from pantry.http.served import Asking
from pantry.reports.shapes.written import Role

T = TypeVar("T")

Short = Annotated[str, Meta(max_length=200)]
"""A name, a code or a password: long enough for any, too short to be a burden."""

Counting = Annotated[int, Meta(ge=0, le=2**53)]


class Taken(Struct, frozen=True, forbid_unknown_fields=True):
    """A body as it comes; an unknown field is a fault."""


class SignIn(Taken, frozen=True):
    """Name and password; `keep` says whether the token comes as a cookie or in the answer."""

    name: Short
    password: Annotated[str, Meta(max_length=1_000)]
    house: Short | None = None
    keep: Literal["cookie", "token"] = "cookie"


class UseWayIn(Taken, frozen=True):
    """A one-time code and the password that is set with it."""

    name: Short
    code: Short
    password: Annotated[str, Meta(max_length=1_000)]
    house: Short | None = None
    keep: Literal["cookie", "token"] = "cookie"


class NewHouse(Taken, frozen=True):
    """The settings of a house that is founded, as the house book's sheet `house` has them."""

    name: Short
    time_zone: Short
    currency: Short
    unit_system: Short
    notice: Short = "72 h"
    policy: Short = "uk"
    allergen_list: Short = "eu14"


class FirstManager(Taken, frozen=True):
    """The server's secret, and who is its first manager; the house where there is none yet."""

    secret: Short
    name: Annotated[str, Meta(min_length=1, max_length=200)]
    password: Annotated[str, Meta(max_length=1_000)]
    house: NewHouse | None = None


class OfPerson(Taken, frozen=True):
    """Somebody of the house, by name or id."""

    person: Short


class ChangePassword(Taken, frozen=True):
    """The password so far and the one from now on."""

    old: Annotated[str, Meta(max_length=1_000)]
    new: Annotated[str, Meta(max_length=1_000)]


class NameDevice(Taken, frozen=True):
    """What people are to call a device: *Back door phone*."""

    name: Annotated[str, Meta(min_length=1, max_length=60, pattern=r"\S")]


class EnrolByCode(Taken, frozen=True):
    """A one-time code that a manager made for a device."""

    code: Short


class OfDevice(Taken, frozen=True):
    """A device of the house, by its id."""

    device: Short


class EnterPin(Taken, frozen=True):
    """Who comes in on a device of the house."""

    person: Short
    pin: Short


class SetPin(Taken, frozen=True):
    """A PIN of one's own; who one is, by password or by a one-time code."""

    person: Short
    pin: Short
    password: Annotated[str, Meta(max_length=1_000)] | None = None
    code: Short | None = None


class Exchange(Taken, frozen=True):
    """An outbox's commands in order, and how far the device has come (SY5).

    `device` says whose outbox it is; left out, the commands say it. `held` is asked for after the
    house was restored (SY7). `made` is the highest number the device has given (SY11).
    """

    protocol: int
    epoch: Short = ""
    cursor: Counting = 0
    commands: list[Any] = []
    device: Short | None = None
    held: Holding | None = None
    made: Counting | None = None


class GoOn(Taken, frozen=True):
    """Whom the house waits for no longer, by name or id; left out: anybody."""

    device: Short | None = None


class Person(Struct, frozen=True):
    """Who is signed in."""

    id: str
    name: str
    role: Role


class OfHouse(Struct, frozen=True):
    """The settings by which a client writes and reads; whether the house sends mail itself."""

    id: str
    name: str
    zone: str
    currency: str
    unit_system: str
    decimal_mark: str
    notice: str
    sends_mail: bool


class May(Struct, frozen=True):
    """What a role may do and see."""

    commands: list[str]
    reports: list[str]


class OnDevice(Struct, frozen=True):
    """A device of the house."""

    id: str
    name: str


class OnePerson(Struct, frozen=True):
    """Somebody who may come in on a device, and whether by a PIN of their own."""

    name: str
    has_pin: bool


class ThisDevice(Struct, frozen=True):
    """What device of the house this is, who may come in on it, and whether PINs are locked."""

    device: OnDevice
    house: str
    people: list[OnePerson]
    locked: bool


class DeviceCode(Struct, frozen=True):
    """A one-time code for a device, shown once; `address` takes it up, `picture` is its QR code."""

    code: str
    expires_at: str
    address: str
    picture: str


class Me(Struct, frozen=True, omit_defaults=True):
    """Who is signed in, where, and what they may do; `token` only where it was asked for.

    `device` is the house's device they are signed in on, which has an outbox.
    """

    person: Person
    house: OfHouse
    now: str
    epoch: str
    position: int
    may: May
    device: OnDevice | None = None
    token: str | None = None


class Health(Struct, frozen=True):
    """The server works and its database answers."""

    status: str
    schema: int
    version: str


class Front(Struct, frozen=True):
    """What the first screen is: a house is founded, a first manager named, or one signs in."""

    schema: int
    needs: Literal["house", "first_manager", "sign_in"]
    houses: list[str]
    now: str


class WayIn(Struct, frozen=True):
    """A one-time code, shown once."""

    code: str
    expires_at: str


class Ended(Struct, frozen=True):
    """How many sessions were ended."""

    ended: int


class Change(Struct, frozen=True):
    """One numbered change."""

    number: int
    position: int
    what: str
    key: str


class Exchanged(Struct, frozen=True, omit_defaults=True):
    """What an exchange answers after one durable commit (SY5).

    While `restored` is there, or where the epoch is another than the device knew, no command of
    the device was taken: it keeps them all.
    """

    epoch: str
    answers: list[Answer]
    changes: list[Change]
    cursor: int
    backed_up: int
    server_time: str
    restored: Restored | None = None


class WentOn(Struct, frozen=True):
    """Whom the house goes on without, and whom it still waits for, by name."""

    without: list[str]
    awaited: list[str]


class BookTaken(Struct, frozen=True):
    """What became of a house book."""

    schema: int
    applied: bool
    faults: list[FaultPart]


async def read(request: Asking, shape: type[T]) -> T:
    """The body of a request as what it should be.

    Raises:
        UnreadableRequest: `request_unreadable`, naming the field.
    """
    body = await request.body()
    try:
        return msgspec.json.decode(body, type=shape)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        message, _, place = str(error).partition(" - at `$")
        raise unreadable(
            f"The body cannot be read: {message}.",
            "Send JSON as /openapi.json describes it.",
            field=place.rstrip("`").lstrip("."),
        ) from error
