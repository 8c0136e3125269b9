"""PINs: who it is, on a device that the house knows already.

A PIN is short, and worth nothing without the device: the device is what is known first, and it is
the device that is slowed down and locked by wrong ones, never the person.
"""

from datetime import datetime

from sqlalchemy import Connection

from pantry.records.rows import add, every, find, remove
from pantry.records.tables import PinRow
from pantry.refusals import UnreadableInput, declare

PIN_UNFIT = declare("pin_unfit", "The PIN is not four to eight figures, or is one tried first.")

SHORTEST, LONGEST = 4, 8
_ROW = "01234567890 9876543210"


def refuse_unfit(pin: str) -> None:
    """Refuse what is no PIN, and those that are tried first: one figure again and again, a row.

    Raises:
        UnreadableInput: `pin_unfit`.
    """
    fits = pin.isascii() and pin.isdigit() and SHORTEST <= len(pin) <= LONGEST
    if fits and len(set(pin)) > 1 and pin not in _ROW:
        return
    raise UnreadableInput(
        PIN_UNFIT,
        f"A PIN has {SHORTEST} to {LONGEST} figures, not all the same and not in a row.",
        "Choose another one.",
        field="pin",
    )


def kept(connection: Connection, house: str, person: str) -> str | None:
    """The hash of a person's PIN, if there is one."""
    row = find(connection, PinRow, house=house, person=person)
    return row.hash if row else None


def keep(connection: Connection, house: str, person: str, known: str, now: datetime) -> None:
    """Give a person a PIN, in the place of an earlier one."""
    remove(connection, PinRow, house=house, person=person)
    add(connection, PinRow(house=house, person=person, hash=known, set_at=now))


def who_has_one(connection: Connection, house: str) -> set[str]:
    """The ids of the people who have a PIN."""
    return {row.person for row in every(connection, PinRow, house=house)}
