"""What was counted last, and what the counts of some time found otherwise than the books had it."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, bindparam, text

from pantry.records.accounts import COUNT_DIFFERENCE
from pantry.records.rows import among, every, made, table
from pantry.records.tables import CountedRow, JournalRow, MovementRow

_EVER = text(
    "SELECT DISTINCT batch.item AS item, balance.account AS account FROM balance"
    " JOIN batch ON batch.house = balance.house AND batch.id = balance.batch"
    " WHERE balance.house = :house AND balance.account >= 'area:' AND balance.account < 'area;'"
)

_DIFFERENCES = (
    table(MovementRow)
    .select()
    .where(
        text(
            "movement.house = :house AND movement.at >= :since"
            " AND movement.batch IN (SELECT batch FROM balance"
            " WHERE house = :house AND account = :lost)"
            " AND (movement.source = :lost OR movement.target = :lost)"
            " AND movement.reverses IS NULL AND NOT EXISTS (SELECT 1 FROM movement AS back"
            " WHERE back.house = movement.house AND back.reverses = movement.number)"
        ).bindparams(bindparam("since", type_=table(MovementRow).c.at.type))
    )
    .order_by(table(MovementRow).c.number.desc())
)


def last_counted(connection: Connection, house: str) -> dict[tuple[str, str], CountedRow]:
    """What was counted last, by storage area and item, in the order of the shelves."""
    rows = every(connection, CountedRow, house=house)
    rows.sort(key=lambda row: (row.area, row.place, row.item))
    return {(row.area, row.item): row for row in rows}


def ever_stood(connection: Connection, house: str) -> set[tuple[str, str]]:
    """Every storage area with every item that ever stood in it."""
    found = connection.execute(_EVER, {"house": house})
    return {(account.removeprefix("area:"), item) for item, account in found}


def differences(
    connection: Connection, house: str, since: datetime
) -> list[tuple[MovementRow, JournalRow]]:
    """What counts posted since an instant, the newest first, each with the count.

    What was taken back is left out, and so is what a count had taken up of late facts.
    """
    given = {"house": house, "since": since, "lost": COUNT_DIFFERENCE}
    moved: Sequence[MovementRow] = made(MovementRow, connection.execute(_DIFFERENCES, given))
    ids = sorted({row.command for row in moved})
    counts = {
        row.id: row
        for row in among(connection, JournalRow, house, "id", ids)
        if row.kind == "count"
    }
    return [(row, counts[row.command]) for row in moved if row.command in counts]
