"""What was lost, as the ledger has it, and what was served beside it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection, bindparam, func, select, text

from pantry.records import accounts
from pantry.records.costs import cost_between
from pantry.records.rows import among, made, table
from pantry.records.tables import BatchRow, MovementRow, ServiceRow

_LOST = (
    table(MovementRow)
    .select()
    .where(
        text(
            "movement.house = :house AND movement.target = :lost"
            " AND movement.at >= :first AND movement.at < :end"
            " AND movement.batch IN (SELECT batch FROM balance"
            " WHERE house = :house AND account = :lost)"
            " AND movement.reverses IS NULL AND NOT EXISTS (SELECT 1 FROM movement AS back"
            " WHERE back.house = movement.house AND back.reverses = movement.number)"
        ).bindparams(
            bindparam("first", type_=table(MovementRow).c.at.type),
            bindparam("end", type_=table(MovementRow).c.at.type),
        )
    )
    .order_by(table(MovementRow).c.number)
)
_COVERS = (
    select(table(ServiceRow).c.on, func.sum(table(ServiceRow).c.covers))
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.state == "served")
    .where(table(ServiceRow).c.on >= bindparam("first"))
    .where(table(ServiceRow).c.on <= bindparam("last"))
    .group_by(table(ServiceRow).c.on)
)


@dataclass(frozen=True, slots=True)
class Lost:
    """A part of a batch that was lost, and what it had cost in whole minor units."""

    movement: MovementRow
    batch: BatchRow
    cost: int


def lost(connection: Connection, house: str, first: datetime, end: datetime) -> list[Lost]:
    """What was lost since `first` and before `end`, without what was taken back, as it was given.

    What each part had cost is the share that the parts of its batch that left the house, one after
    another, leave for it (MS1): together they are never more than the batch cost.
    """
    between = {"house": house, "lost": accounts.WASTE, "first": first, "end": end}
    found = made(MovementRow, connection.execute(_LOST, between))
    ids = sorted({row.batch for row in found})
    batches = {row.id: row for row in among(connection, BatchRow, house, "id", ids)}
    costs = _costs(batches, among(connection, MovementRow, house, "batch", ids))
    return [Lost(row, batches[row.batch], costs[row.number]) for row in found]


def _costs(batches: Mapping[str, BatchRow], moved: Iterable[MovementRow]) -> dict[int, int]:
    """What each movement out of the house took of its batch's cost, by its number."""
    every = sorted(moved, key=lambda row: row.number)
    back = {row.reverses for row in every}
    gone: dict[str, int] = {}
    costs: dict[int, int] = {}
    for row in every:
        if row.reverses is not None or row.number in back:
            continue
        leaves, enters = _stands(row.source), _stands(row.target)
        upto = gone.get(row.batch, batches[row.batch].quantity)
        if leaves and not enters:
            costs[row.number] = cost_between(batches[row.batch], upto, row.quantity)
            gone[row.batch] = upto + row.quantity
        elif enters and not leaves:
            gone[row.batch] = upto - row.quantity
    return costs


def _stands(account: str) -> bool:
    return accounts.kind(account) in accounts.PHYSICAL


def covers_by_day(connection: Connection, house: str, first: date, last: date) -> dict[date, int]:
    """The covers that were served on each day."""
    days = {"house": house, "first": first, "last": last}
    return {day: int(covers) for day, covers in connection.execute(_COVERS, days).all()}
