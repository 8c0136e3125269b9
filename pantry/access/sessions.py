"""Sessions: an opaque token in the browser, its SHA-256 here, revocable at any moment.

A session ends thirty days after it was last used and ninety after it was begun, by the server's own
clock. Signing in always makes a new token, whatever the browser had before: a token that somebody
else put there is worth nothing (session fixation).
"""

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, bindparam, delete

from pantry import world
from pantry.records.rows import add, change, every, find, remove, table
from pantry.records.tables import DeviceRow, PersonRow, SessionRow

IDLE = timedelta(days=30)
LONGEST = timedelta(days=90)
SLIDES_EVERY = timedelta(hours=1)
"""A session that is used is written down again this often, not with every request."""

_OVER = delete(table(SessionRow)).where(table(SessionRow).c.expires_at < bindparam("now"))


@dataclass(frozen=True, slots=True)
class Signed:
    """Somebody who is signed in.

    Attributes:
        house, person, session: ids.
        expires_at: when the session ends if it is not used again.
        ends_at: when it ends in any case.
        device: the house's device it was begun on; None: a browser of anybody's.
    """

    house: str
    person: str
    name: str
    role: str
    session: str
    expires_at: datetime
    ends_at: datetime
    device: str | None = None


def begin(
    connection: Connection, person: PersonRow, now: datetime, device: str | None = None
) -> str:
    """Sign a person in; answers the token, which is known nowhere else."""
    token = world.new_secret()
    connection.execute(_OVER, {"now": now})
    add(
        connection,
        SessionRow(
            id=_kept(token),
            house=person.house,
            person=person.id,
            device=device,
            begun_at=now,
            expires_at=now + IDLE,
            ends_at=now + LONGEST,
        ),
    )
    return token


def whose(connection: Connection, token: str, now: datetime) -> Signed | None:
    """Who is signed in by a token; None where it is none, has ended, or the person has left."""
    return signed(connection, _kept(token), now)


def signed(connection: Connection, session: str, now: datetime) -> Signed | None:
    """Who is signed in by a session, as `whose` has it."""
    row = find(connection, SessionRow, id=session)
    if row is None or row.expires_at < now:
        return None
    person = find(connection, PersonRow, house=row.house, id=row.person)
    if person is None or not person.active:
        return None
    if row.device is not None and _is_revoked(connection, row):
        return None
    return Signed(
        house=row.house,
        person=person.id,
        name=person.name,
        role=person.role,
        session=row.id,
        expires_at=row.expires_at,
        ends_at=row.ends_at,
        device=row.device,
    )


def _is_revoked(connection: Connection, row: SessionRow) -> bool:
    device = find(connection, DeviceRow, house=row.house, id=row.device)
    return device is None or device.revoked


def wants_to_slide(who: Signed, now: datetime) -> bool:
    """Whether its end should move on, since it is used."""
    return _moved_on(who, now) - who.expires_at >= SLIDES_EVERY


def slide(connection: Connection, who: Signed, now: datetime) -> None:
    """Move the end of a session on."""
    change(connection, SessionRow, {"id": who.session}, expires_at=_moved_on(who, now))


def _moved_on(who: Signed, now: datetime) -> datetime:
    return min(now + IDLE, who.ends_at)


def end(connection: Connection, token: str) -> None:
    """The session of a token is over."""
    remove(connection, SessionRow, id=_kept(token))


def end_all(connection: Connection, house: str, person: str, *, but: str = "") -> int:
    """Every session of a person is over, but for one; answers how many were."""
    found = [
        row for row in every(connection, SessionRow, house=house, person=person) if row.id != but
    ]
    for row in found:
        remove(connection, SessionRow, id=row.id)
    return len(found)


def end_device(connection: Connection, house: str, device: str) -> None:
    """Every session of a device is over."""
    remove(connection, SessionRow, house=house, device=device)


def _kept(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()
