"""What is different since a number of the house's one sequence (SY6)."""

from typing import NamedTuple

from sqlalchemy import Connection, bindparam, select

from pantry.records.rows import table
from pantry.records.tables import ChangeRow, HouseRow
from pantry.reports.report import Row
from pantry.reports.view import View

MOST = 500
"""At most so many changes in one answer; the next cursor is the last number of it."""

_SINCE = (
    select(table(ChangeRow))
    .where(table(ChangeRow).c.house == bindparam("house"))
    .where(table(ChangeRow).c.number > bindparam("since"))
    .order_by(table(ChangeRow).c.number)
    .limit(MOST)
)

_HEADS = select(table(HouseRow).c.id, table(HouseRow).c.position, table(HouseRow).c.change)


class Head(NamedTuple):
    """How far a house's one sequence has come."""

    position: int
    change: int


def heads(connection: Connection) -> dict[str, Head]:
    """How far every house has come, by its id."""
    return {row.id: Head(row.position, row.change) for row in connection.execute(_HEADS)}


def changes(view: View, since: int = 0) -> list[Row]:
    """A row for each numbered change after `since`: what it is about, and by which command."""
    rows = view.connection.execute(_SINCE, {"house": view.id, "since": since})
    return [
        {"number": row.number, "position": row.position, "what": row.what, "key": row.key}
        for row in rows
    ]
