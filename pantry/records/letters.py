"""Letters that wait to be sent: who takes one up, and what came of it.

Whoever takes a letter up has it for a while and nobody else has; a program that ends meanwhile
loses nothing, since it is taken up again after that. So a letter is sent at least once, and twice
only where the mail server had taken it and the program ended before it could note that.
"""

from datetime import datetime, timedelta

from sqlalchemy import Connection, bindparam, select

from pantry.records.rows import change, made, table
from pantry.records.tables import LetterRow

HELD = timedelta(minutes=5)
"""Longer than any mail server takes to answer."""

_letter = table(LetterRow).c
_WAITING = (
    select(table(LetterRow))
    .where(_letter.house == bindparam("house"))
    .where(_letter.next_try_at <= bindparam("now"))
    .order_by(_letter.next_try_at, _letter.id)
    .limit(1)
)


def waiting(connection: Connection, house: str, now: datetime) -> LetterRow | None:
    """The letter that is to be tried next, if one is due; `now` is the server's own time."""
    found = connection.execute(_WAITING, {"house": house, "now": now})
    return next(iter(made(LetterRow, found)), None)


def take_up(connection: Connection, house: str, now: datetime) -> LetterRow | None:
    """The same, and from now on it is with whoever asked."""
    row = waiting(connection, house, now)
    if row is None:
        return None
    tries = row.tries + 1
    key = {"house": house, "id": row.id}
    change(connection, LetterRow, key, tries=tries, next_try_at=now + HELD)
    return row.model_copy(update={"tries": tries})


def note_sent(connection: Connection, row: LetterRow, now: datetime) -> None:
    """The mail server has taken it."""
    key = {"house": row.house, "id": row.id}
    change(connection, LetterRow, key, sent_at=now, next_try_at=None, said=None)


def note_not_sent(
    connection: Connection, row: LetterRow, next_try_at: datetime | None, said: str
) -> None:
    """The mail server has not; None: it is given up."""
    key = {"house": row.house, "id": row.id}
    change(connection, LetterRow, key, next_try_at=next_try_at, said=said)
