"""At what price a pack was ordered: as its supplier answered, else as it cost then."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from sqlalchemy import Connection

from pantry.records.rows import among, every, grouped
from pantry.records.tables import (
    AnsweredLineRow,
    JournalRow,
    OrderBeforeRow,
    OrderRow,
    PackPriceRow,
    PackRow,
    SupplierAnswerRow,
)
from pantry.rules.invoiced import PriceFrom

_WRITES_LINES = ("place_order", "amend_order")


class AgreedPrices:
    """The prices of a supplier's packs, as they were agreed for some orders; minor units."""

    def __init__(
        self, connection: Connection, house: str, packs: Sequence[PackRow], orders: Sequence[str]
    ) -> None:
        self._packs = {row.id: row for row in packs}
        changes = among(connection, PackPriceRow, house, "pack", list(self._packs))
        self._changes = {
            pack: sorted(rows, key=lambda row: (row.at, row.command))
            for pack, rows in grouped(changes, lambda row: row.pack).items()
        }
        self._written = _written(connection, house, orders)
        self._answered = _answered(connection, house, orders)

    def of_order(self, order: OrderRow, pack: str) -> tuple[int, PriceFrom]:
        """What one pack of an order was to cost, and where that is from."""
        if (confirmed := self._answered.get((order.id, pack))) is not None:
            return confirmed, "confirmed"
        if (written := self._written.get(order.id)) is not None:
            return self.at(pack, written), "ordered"
        return self.at(pack, order.delivery_at), "last_price"

    def at(self, pack: str, at: datetime) -> int:
        """What a pack cost at an instant, as far as anybody said; 0: it is not sold any more."""
        later = [row for row in self._changes.get(pack, ()) if row.at > at]
        if later:
            return later[0].before
        row = self._packs.get(pack)
        return row.price if row else 0


def _written(connection: Connection, house: str, orders: Sequence[str]) -> Mapping[str, datetime]:
    """When the lines of each order were last written."""
    before = among(connection, OrderBeforeRow, house, "purchase_order", orders)
    by_command = {row.command: row for row in before if row.kind in _WRITES_LINES}
    found: dict[str, datetime] = {}
    for row in among(connection, JournalRow, house, "id", list(by_command)):
        order = by_command[row.id].purchase_order
        found[order] = max(row.at, found.get(order, row.at))
    return found


def _answered(
    connection: Connection, house: str, orders: Sequence[str]
) -> Mapping[tuple[str, str], int]:
    """The price that the last answer to each line named, where one did."""
    answers = among(connection, SupplierAnswerRow, house, "purchase_order", orders)
    lines = grouped(
        among(connection, AnsweredLineRow, house, "command", [row.command for row in answers]),
        lambda row: row.command,
    )
    return {
        (answer.purchase_order, line.pack): line.price
        for answer in sorted(answers, key=lambda row: (row.at, row.command))
        for line in lines.get(answer.command, ())
        if line.price is not None
    }


def packs_of(connection: Connection, house: str, supplier: str) -> list[PackRow]:
    """What a supplier sells."""
    return every(connection, PackRow, house=house, supplier=supplier)
