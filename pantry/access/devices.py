"""Devices of a house: enrolled by a one-time code, known again by a key that only they have (SY13).

The device is the first thing that is known; a PIN then names the person on it. Wrong PINs slow the
device down, each wait twice the last, and at `MOST_WRONG` in a row for one person lock it until a
manager unlocks it; on every other device that person comes in as ever. A revoked device keeps its
key: with it, it may hand in its outbox, and nothing else.
"""

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection

from pantry import world
from pantry.access.refused import TOO_MANY_TRIES, NotKnown, TooManyTries
from pantry.access.sessions import Signed
from pantry.records.rows import add, every, find, remove
from pantry.records.tables import (
    DeviceCodeRow,
    DeviceHeardRow,
    DeviceKeyRow,
    DevicePersonRow,
    DeviceRow,
    PersonRow,
    WrongPinRow,
)
from pantry.refusals import NotAllowed, NotThere, declare

DEVICE_CODE_WRONG = declare("device_code_wrong", "The device's code is not valid, or no longer.")
DEVICE_NOT_KNOWN = declare("device_not_known", "This device is none of the house's.")
DEVICE_TAKEN_OUT = declare("device_taken_out", "This device was taken out of the house.")
DEVICE_LOCKED = declare("device_locked", "Too many wrong PINs have locked this device.")
PIN_WRONG = declare("pin_wrong", "The PIN is not that person's.")

LASTS = timedelta(minutes=15)
QUIET = timedelta(minutes=5)
"""A device that says nothing new is written down this often."""

FREE = 3
MOST_WRONG = 10
"""Wrong PINs in a row: the first cost nothing, and the last locks the device.

NIST SP 800-63B, revision 3, section 5.2.2, from memory, allows a hundred at most.
"""


@dataclass(frozen=True, slots=True)
class Known:
    """A device that has shown its key.

    Attributes:
        house, device: ids.
        name: what people call it.
    """

    house: str
    device: str
    name: str
    revoked: bool


def make_code(
    connection: Connection, house: str, name: str, made_by: str, now: datetime
) -> tuple[str, datetime]:
    """A new code that enrols one device, and until when it works."""
    for row in every(connection, DeviceCodeRow, house=house):
        if row.expires_at < now:
            remove(connection, DeviceCodeRow, id=row.id)
    code, expires_at = world.new_code(), now + LASTS
    kept = DeviceCodeRow(
        id=_hash_of_code(code), house=house, name=name, made_by=made_by, expires_at=expires_at
    )
    add(connection, kept)
    return code, expires_at


def use_up(connection: Connection, code: str, now: datetime) -> DeviceCodeRow:
    """Take a code, which does not work again; answers what it was made for.

    Raises:
        NotKnown: `device_code_wrong`.
    """
    row = find(connection, DeviceCodeRow, id=_hash_of_code(code))
    if row is None or row.expires_at < now:
        raise NotKnown(
            DEVICE_CODE_WRONG,
            "That code is not valid, or no longer.",
            "Look at it again, or ask a manager for a new one; it works for 15 minutes, once.",
            field="code",
        )
    remove(connection, DeviceCodeRow, id=row.id)
    return row


def give_key(connection: Connection, house: str, device: str) -> str:
    """A key for an enrolled device; it is known nowhere else."""
    key = world.new_secret()
    add(connection, DeviceKeyRow(id=_hash(key), house=house, device=device))
    return key


def with_a_key(connection: Connection, house: str) -> set[str]:
    """The devices that are known by a key: nobody else hands in their outboxes."""
    return {row.device for row in every(connection, DeviceKeyRow, house=house)}


def known(connection: Connection, key: str) -> Known | None:
    """The device of a key, revoked or not; None where it is none of the house's."""
    row = find(connection, DeviceKeyRow, id=_hash(key))
    device = find(connection, DeviceRow, house=row.house, id=row.device) if row else None
    if row is None or device is None:
        return None
    return Known(row.house, device.id, device.name, device.revoked)


def must_be_known(connection: Connection, key: str | None) -> Known:
    """The device of a key, which has its rights still.

    Raises:
        NotKnown: `device_not_known`.
        NotAllowed: `device_taken_out`.
    """
    found = known(connection, key) if key else None
    if found is None:
        raise NotKnown(
            DEVICE_NOT_KNOWN,
            "This device is none of the house's.",
            "A manager makes a code for it, on the screen People.",
        )
    if found.revoked:
        raise NotAllowed(
            DEVICE_TAKEN_OUT,
            f"{found.name} was taken out of the house.",
            "What it still holds is handed in for the manager. A manager makes a new code for it.",
            value=found.device,
        )
    return found


def taken_out(connection: Connection, key: str, now: datetime) -> Signed | None:
    """Nobody on a device that was taken out of the house; None for any other key."""
    found = known(connection, key)
    if found is None or not found.revoked:
        return None
    return Signed(found.house, "", "", "", "", now, now, found.device)


def is_locked(connection: Connection, device: Known) -> bool:
    """Whether no PIN is looked at on a device until a manager unlocks it."""
    of = {"house": device.house, "device": device.device}
    return any(row.locks for row in every(connection, WrongPinRow, **of))


def count_try(connection: Connection, device: Known, person: str, now: datetime) -> None:
    """Count a PIN of a person that is about to be looked at, as if it were wrong.

    Raises:
        NotAllowed: `device_locked`.
        TooManyTries: `too_many_tries`; it is not looked at, and not counted either.
    """
    if is_locked(connection, device):
        raise NotAllowed(
            DEVICE_LOCKED,
            f"{device.name} is locked: {MOST_WRONG} wrong PINs in a row.",
            "A manager unlocks it on the screen People; what it holds is kept.",
            value=device.device,
        )
    of = {"house": device.house, "device": device.device, "person": person}
    row = find(connection, WrongPinRow, **of)
    if row and row.wait_until > now:
        raise _too_soon(row.wait_until - now)
    wrong = row.wrong + 1 if row else 1
    wait = timedelta(seconds=2 ** (wrong - FREE)) if wrong > FREE else timedelta(0)
    remove(connection, WrongPinRow, **of)
    locks = wrong >= MOST_WRONG
    add(connection, WrongPinRow(**of, wrong=wrong, wait_until=now + wait, locks=locks))


def _too_soon(wait: timedelta) -> TooManyTries:
    seconds = max(1, -(-wait // timedelta(seconds=1)))
    return TooManyTries(
        TOO_MANY_TRIES,
        "Several wrong PINs were given.",
        f"Wait {seconds} {'second' if seconds == 1 else 'seconds'}, then try again.",
        wait=seconds,
    )


def was_right(connection: Connection, device: Known, person: str) -> None:
    """A person's PIN was right: the wrong ones before it are forgotten."""
    of = {"house": device.house, "device": device.device, "person": person}
    remove(connection, WrongPinRow, **of)


def may_use(person: PersonRow) -> bool:
    """Whether somebody comes in by PIN: who only approves menus has nothing to do on a device."""
    return person.active and person.role != "approver"


def came_in(connection: Connection, device: Known, person: PersonRow, now: datetime) -> None:
    """Somebody is known on a device: what it hands in may be theirs."""
    of = {"house": device.house, "device": device.device, "person": person.id}
    remove(connection, DevicePersonRow, **of)
    add(connection, DevicePersonRow(**of, last_at=now))


def pin_wrong() -> NotKnown:
    """The same words whether the PIN is another's or nobody's."""
    return NotKnown(
        PIN_WRONG,
        "That is not the PIN.",
        "Try again, or choose a new PIN with your password.",
        field="pin",
    )


def unlock(connection: Connection, house: str, device: str) -> None:
    """Let PINs be tried on a device again.

    Raises:
        NotThere: `device_not_known`.
    """
    of = {"house": house, "device": device}
    if find(connection, DeviceKeyRow, **of) is None:
        raise NotThere(
            DEVICE_NOT_KNOWN,
            f"No device {device!r} has a key of this house.",
            "Name one of the devices of the house.",
            value=device,
            field="device",
        )
    remove(connection, WrongPinRow, **of)


def heard(connection: Connection, house: str, device: str, made: int, now: datetime) -> None:
    """A device was heard of, and says how many commands it has made (SY11)."""
    of = {"house": house, "device": device}
    before = find(connection, DeviceHeardRow, **of)
    remove(connection, DeviceHeardRow, **of)
    most = max(made, before.made if before else 0)
    add(connection, DeviceHeardRow(**of, made=most, at=now))


def is_news(connection: Connection, house: str, device: str, made: int, now: datetime) -> bool:
    """Whether what a device says of itself is worth writing down."""
    before = find(connection, DeviceHeardRow, house=house, device=device)
    return before is None or made > before.made or now - before.at > QUIET


def _hash(key: str) -> str:
    return hashlib.sha256(key.encode("utf-8", "surrogatepass")).hexdigest()


def _hash_of_code(code: str) -> str:
    return _hash("".join(letter for letter in code.upper() if letter.isalnum()))
