"""Ways in: a code that a manager makes for a person, who sets a password of their own with it.

It is shown once, works once, and for three days. What is kept of it is its SHA-256: a code has 59
random bits, and guesses at it are slowed down as those at a password are.
"""

import hashlib
import hmac
from datetime import datetime, timedelta

from sqlalchemy import Connection

from pantry import world
from pantry.access.refused import NotKnown
from pantry.records.rows import add, find, remove
from pantry.records.tables import PersonRow, WayInRow
from pantry.refusals import declare

WAY_IN_WRONG = declare("way_in_wrong", "The code is not valid, or no longer.")

LASTS = timedelta(hours=72)


def make(connection: Connection, person: PersonRow, now: datetime) -> tuple[str, datetime]:
    """A new code for a person, and until when it works; an earlier one no longer does."""
    code, expires_at = world.new_code(), now + LASTS
    remove(connection, WayInRow, house=person.house, person=person.id)
    row = WayInRow(house=person.house, person=person.id, code=_kept(code), expires_at=expires_at)
    add(connection, row)
    return code, expires_at


def use_up(connection: Connection, person: PersonRow | None, code: str, now: datetime) -> PersonRow:
    """Take the code, which does not work again; answers whose it was.

    Raises:
        NotKnown: `way_in_wrong`, whatever is wrong with it.
    """
    row = find(connection, WayInRow, house=person.house, person=person.id) if person else None
    right = row is not None and hmac.compare_digest(row.code, _kept(code))
    if person is None or row is None or not right or row.expires_at < now:
        raise NotKnown(
            WAY_IN_WRONG,
            "That code is not valid for that name, or no longer.",
            "Look at it again, or ask a manager for a new one.",
            field="code",
        )
    remove(connection, WayInRow, house=person.house, person=person.id)
    return person


def _kept(code: str) -> str:
    plain = "".join(letter for letter in code.upper() if letter.isalnum())
    return hashlib.sha256(plain.encode()).hexdigest()
