"""What failed cold places put on hold, and nobody has decided on."""

from sqlalchemy import Connection

from pantry.records import accounts
from pantry.records.rows import among, every
from pantry.records.tables import BalanceRow, HeldWarmRow


def waiting(connection: Connection, house: str) -> dict[tuple[str, str], HeldWarmRow]:
    """By batch and area, by which reading what is still on hold there was held last."""
    rows = every(connection, HeldWarmRow, house=house)
    balances = among(connection, BalanceRow, house, "batch", [row.batch for row in rows])
    held = {(row.batch, row.account) for row in balances if row.quantity > 0}
    rows.sort(key=lambda row: row.since)
    return {
        (row.batch, row.area): row for row in rows if (row.batch, accounts.hold(row.area)) in held
    }
