"""What failed cold places put on hold, and nobody has decided on."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection

from pantry.records import accounts
from pantry.records.rows import among, every
from pantry.records.tables import BalanceRow, HeldWarmRow, MovementRow


@dataclass(frozen=True)
class Waiting:
    """What is still on hold of a batch in a place that failed.

    `warm` is the last reading by which it was held; `held_for` are the reasons why any of the batch
    is on hold besides, wherever it stands: who releases the batch releases that, too.
    """

    warm: HeldWarmRow
    held_for: tuple[str, ...]


def waiting(connection: Connection, house: str) -> dict[tuple[str, str], Waiting]:
    """By batch and area, what failed places hold. What was released since is theirs no more."""
    warm = {
        (row.batch, row.area, row.command): row
        for row in every(connection, HeldWarmRow, house=house)
    }
    batches = sorted({batch for batch, _, _ in warm})
    balances = among(connection, BalanceRow, house, "batch", batches)
    held = sorted({row.batch for row in balances if row.quantity > 0 and _is_hold(row.account)})
    moved: dict[str, list[MovementRow]] = {batch: [] for batch in held}
    for row in among(connection, MovementRow, house, "batch", held):
        moved[row.batch].append(row)
    found: dict[tuple[str, str], Waiting] = {}
    for batch in held:
        found |= _of(batch, holding_still(moved[batch]), warm)
    return dict(sorted(found.items(), key=lambda each: each[1].warm.since))


def _of(
    batch: str,
    holding: Iterable[MovementRow],
    warm: dict[tuple[str, str, str], HeldWarmRow],
) -> dict[tuple[str, str], Waiting]:
    by_failing: dict[str, HeldWarmRow] = {}
    otherwise: list[str] = []
    for row in holding:
        area = accounts.place(row.target)
        failing = warm.get((batch, area, row.command))
        if failing is None:
            otherwise.append(row.reason or "no reason was said")
        else:
            by_failing[area] = failing
    held_for = tuple(dict.fromkeys(otherwise))
    return {(batch, area): Waiting(row, held_for) for area, row in by_failing.items()}


def holding_still(moved: Iterable[MovementRow]) -> list[MovementRow]:
    """What put a batch on hold where it still is: since nothing was last on hold there.

    `moved` are all movements of the batch. What was taken back, and its taking back, do not count.
    """
    rows = sorted(moved, key=lambda row: row.number)
    undone = {row.reverses for row in rows}
    standing: dict[str, int] = {}
    holding: dict[str, list[MovementRow]] = {}
    for row in rows:
        if row.reverses is not None or row.number in undone:
            continue
        if _is_hold(row.target):
            standing[row.target] = standing.get(row.target, 0) + row.quantity
            holding.setdefault(row.target, []).append(row)
        if _is_hold(row.source):
            standing[row.source] = standing.get(row.source, 0) - row.quantity
            if standing[row.source] <= 0:
                holding.pop(row.source, None)
    return [row for rows in holding.values() for row in rows]


def _is_hold(account: str) -> bool:
    return accounts.kind(account) == "hold"
