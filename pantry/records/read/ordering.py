"""How orders reached their suppliers, and what a version of them was."""

from sqlalchemy import Connection

from pantry.records.rows import every
from pantry.records.tables import OrderBeforeRow, OrderSentRow


def sent_as_it_stands(connection: Connection, house: str, order: str) -> OrderSentRow | None:
    """The last sending of an order whose lines nobody has amended since, or None."""
    of_order = {"house": house, "purchase_order": order}
    sent = every(connection, OrderSentRow, **of_order)
    amended = [
        row.version
        for row in every(connection, OrderBeforeRow, **of_order)
        if row.kind == "amend_order"
    ]
    standing = [row for row in sent if all(row.version > version for version in amended)]
    return max(standing, key=lambda row: row.version, default=None)
