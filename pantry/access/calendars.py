"""A person's own calendar address: made, renewed and withdrawn by the person alone.

Whoever has the address reads what its person may read of the house's deadlines. Only a hash of what
it ends with is kept, so that nobody finds it in a database.
"""

import hashlib
from datetime import datetime

from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.records.rows import add, change, find, remove
from pantry.records.tables import CalendarFeedRow, PersonRow


def make(connection: Connection, who: Signed, secret: str, now: datetime) -> None:
    """Give a person a calendar whose address ends with this; the one before leads nowhere."""
    withdraw(connection, who)
    feed = CalendarFeedRow(id=kept(secret), house=who.house, person=who.person, made_at=now)
    add(connection, feed)


def withdraw(connection: Connection, who: Signed) -> None:
    """A person's address leads nowhere from now on."""
    remove(connection, CalendarFeedRow, house=who.house, person=who.person)


def of_person(connection: Connection, who: Signed) -> CalendarFeedRow | None:
    """What is kept of a person's calendar; None: they have none."""
    return find(connection, CalendarFeedRow, house=who.house, person=who.person)


def whose(connection: Connection, secret: str) -> tuple[CalendarFeedRow, PersonRow] | None:
    """Whose calendar an address is; None: nobody's, or of somebody who has left the house."""
    feed = find(connection, CalendarFeedRow, id=kept(secret))
    person = feed and find(connection, PersonRow, house=feed.house, id=feed.person)
    return (feed, person) if feed and person and person.active else None


def note_read(connection: Connection, feed: CalendarFeedRow, now: datetime) -> None:
    """It was read: its person sees when it was last."""
    change(connection, CalendarFeedRow, {"id": feed.id}, read_at=now)


def kept(secret: str) -> str:
    """What is kept of what an address ends with."""
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()
