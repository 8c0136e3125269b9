"""Wrong passwords slow down the next try: per person, and per address.

A try is counted before it is looked at, so that a hundred at once are not looked at together; what
was right is taken back. The first few are free, then each wait is twice the last, up to a limit:
nobody is ever locked out for good, and a guess every five minutes leads nowhere.
"""

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, bindparam, delete

from pantry.access.refused import TOO_MANY_TRIES, TooManyTries
from pantry.records.books import hold_every_house
from pantry.records.rows import add, change, find, remove, table
from pantry.records.tables import TryRow

LONGEST_WAIT = timedelta(minutes=5)
FORGOTTEN = timedelta(days=1)

_OLD = delete(table(TryRow)).where(table(TryRow).c.last_at < bindparam("before"))


@dataclass(frozen=True, slots=True)
class Counted:
    """Something tries are counted for.

    Attributes:
        id: a hash of whom it is about.
        free: so many wrong tries in a row cost nothing.
        cleared: one right try makes all wrong ones forgotten.
    """

    id: str
    free: int
    cleared: bool


def by_person(what: str, house: str, person: str) -> Counted:
    """Tries at one person of one house; `what` keeps passwords and codes apart."""
    return Counted(_hash(what, house, person), free=5, cleared=True)


def by_address(address: str) -> Counted:
    """Tries from one address, which may be that of a whole house."""
    return Counted(_hash("address", address), free=20, cleared=False)


def by_sheet(sheet: str) -> Counted:
    """Answers to one sheet: a household changes its mind some times, a machine thousands."""
    return Counted(_hash("sheet", sheet), free=60, cleared=False)


def _hash(*parts: str) -> str:
    written = "\0".join(parts).encode("utf-8", "surrogatepass")
    return hashlib.sha256(written).hexdigest()


def count(connection: Connection, counted: tuple[Counted, ...], now: datetime) -> None:
    """Count a try that is about to be looked at.

    Raises:
        TooManyTries: `too_many_tries`; it is not looked at, and not counted either.
    """
    hold_every_house(connection)
    connection.execute(_OLD, {"before": now - FORGOTTEN})
    for each in counted:
        row = find(connection, TryRow, id=each.id)
        if row and row.wait_until > now:
            raise _too_many(row.wait_until - now)
        _write(connection, each, (row.wrong if row else 0) + 1, now)


def was_right(connection: Connection, counted: tuple[Counted, ...]) -> None:
    """Take a counted try back: it was right."""
    for each in counted:
        row = find(connection, TryRow, id=each.id)
        if row is None:
            continue
        if each.cleared or row.wrong <= 1:
            remove(connection, TryRow, id=each.id)
        else:
            to = {"wrong": row.wrong - 1, "wait_until": row.last_at}
            change(connection, TryRow, {"id": each.id}, **to)


def _write(connection: Connection, counted: Counted, wrong: int, now: datetime) -> None:
    over = wrong - counted.free
    wait = timedelta(0) if over <= 0 else min(timedelta(seconds=2 ** min(over, 16)), LONGEST_WAIT)
    remove(connection, TryRow, id=counted.id)
    row = TryRow(id=counted.id, wrong=wrong, last_at=now, wait_until=now + wait)
    add(connection, row)


def _too_many(wait: timedelta) -> TooManyTries:
    seconds = max(1, -(-wait // timedelta(seconds=1)))
    return TooManyTries(
        TOO_MANY_TRIES,
        "It was tried too often.",
        f"Wait {seconds} {'second' if seconds == 1 else 'seconds'}, then try again.",
        wait=seconds,
    )
