"""Outboxes: numbers without gaps, one device an outbox (SY2, SY3, SY13)."""

from pantry.commands.device_decisions import EnrolDevice, RevokeDevice
from pantry.commands.envelope import Envelope
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.rows import add, change, find
from pantry.records.tables import DeviceKeyRow, DevicePersonRow, DeviceRow
from pantry.refusals import NotAllowed, NotNow, NotThere, declare

DEVICE_UNKNOWN = declare("device_unknown", "The device has not been enrolled in this house.")
DEVICE_CLONED = declare("device_cloned", "The device's number is taken by another command.")
DEVICE_REVOKED = declare("device_revoked", "The device has been revoked.")
DEVICE_ENROLLED = declare("device_enrolled", "The device has been enrolled already.")
NOT_ON_DEVICE = declare("not_on_device", "The person never came in on the device.")
NUMBER_GAP = declare("number_gap", "A number before this one has not been handed in.")

STOPS = frozenset({DEVICE_UNKNOWN, DEVICE_CLONED, NUMBER_GAP})
"""After these nothing more of the list is looked at."""


def admit(books: Books, envelope: Envelope) -> None:
    """Take the next number of a device's outbox, and no other.

    Raises:
        NotThere: `device_unknown`.
        NotNow: `device_cloned`, `number_gap`.
    """
    if envelope.device is None or envelope.n is None:
        return
    row = _device(books, envelope.device)
    if envelope.n <= row.highest:
        raise NotNow(
            DEVICE_CLONED,
            f"Number {envelope.n} of {row.name} is taken by another command.",
            "Enrol the device again; what it holds is handed in under its new name.",
            value=str(envelope.n),
            field="n",
        )
    if envelope.n > row.highest + 1:
        raise NotNow(
            NUMBER_GAP,
            f"Number {row.highest + 1} of {row.name} has not been handed in; this is {envelope.n}.",
            "Hand in the outbox from the first number that has no answer.",
            value=str(envelope.n),
            field="n",
        )
    where = {"house": books.id, "id": row.id}
    change(books.connection, DeviceRow, where, highest=envelope.n)


def check_rights(books: Books, envelope: Envelope, *, again: bool = False) -> None:
    """A revoked device may hand in its outbox; what it says has no effect until a manager agrees.

    What is done `again` after a restore had its effect once: who had come in on the device since
    the backup is not known any more.

    Raises:
        NotAllowed: `device_revoked`, `not_on_device`.
    """
    if envelope.device is None:
        return
    row = _device(books, envelope.device)
    if row.revoked:
        raise NotAllowed(
            DEVICE_REVOKED,
            f"{row.name} has been revoked.",
            "A manager decides what becomes of this record.",
            value=row.id,
            field="device",
        )
    if not again:
        _refuse_stranger(books, envelope, row)


def _refuse_stranger(books: Books, envelope: Envelope, device: DeviceRow) -> None:
    """What a device with a key of its own hands in is of those who came in on it."""
    of = {"house": books.id, "device": device.id}
    if find(books.connection, DeviceKeyRow, **of) is None:
        return
    names = (row.id for row in books.people if envelope.person in (row.id, row.name))
    person = next(names, None)
    if person and find(books.connection, DevicePersonRow, **of, person=person) is not None:
        return
    raise NotAllowed(
        NOT_ON_DEVICE,
        f"{envelope.person or 'Nobody'} never came in on {device.name}.",
        "A manager decides what becomes of this record.",
        value=envelope.person,
        field="person",
    )


def enrol(books: Books, given: Given[EnrolDevice]) -> None:
    """Let a device hand in commands of its own outbox.

    Raises:
        NotNow: `device_enrolled`.
    """
    body = given.body
    if find(books.connection, DeviceRow, house=books.id, id=body.device) is not None:
        raise NotNow(
            DEVICE_ENROLLED,
            f"{body.device} has been enrolled already.",
            "Give cleared storage a new device id.",
            value=body.device,
            field="body.device",
        )
    row = DeviceRow(house=books.id, id=body.device, name=body.name, enrolled_at=books.now)
    add(books.connection, row)
    books.note("device", body.device)


def revoke(books: Books, given: Given[RevokeDevice]) -> None:
    """Take a device's rights away.

    Raises:
        NotThere: `device_unknown`.
    """
    row = _device(books, given.body.device)
    change(books.connection, DeviceRow, {"house": books.id, "id": row.id}, revoked=True)
    books.note("device", row.id)


def _device(books: Books, device: str) -> DeviceRow:
    row = find(books.connection, DeviceRow, house=books.id, id=device)
    if row is None:
        raise NotThere(
            DEVICE_UNKNOWN,
            f"No device {device!r} has been enrolled in this house.",
            "A manager enrols it first.",
            value=device,
            field="device",
        )
    return row
