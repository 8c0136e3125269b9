"""What came of a supplier's orders, and of what was delivered beside them, at the agreed price."""

from collections.abc import Iterator, Sequence

from sqlalchemy import Connection

from pantry.records.read.agreed_prices import AgreedPrices, packs_of
from pantry.records.rows import among, every, grouped
from pantry.records.tables import (
    CreditRow,
    FreeLineRow,
    ItemRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    ReceiptRow,
)
from pantry.rules.invoiced import Came

A_PACK = 1_000
"""One pack of what nobody counts, in thousandths of a pack."""


class CameOf:
    """What came of one supplier, read once for all its invoices."""

    def __init__(self, connection: Connection, house: str, supplier: str) -> None:
        orders = every(connection, OrderRow, house=house, supplier=supplier)
        self.orders = {row.id: row for row in orders if row.state != "cancelled"}
        ids = list(self.orders)
        self.packs = {row.id: row for row in packs_of(connection, house, supplier)}
        self.prices = AgreedPrices(connection, house, list(self.packs.values()), ids)
        self.lines = grouped(
            among(connection, OrderLineRow, house, "purchase_order", ids),
            lambda row: row.purchase_order,
        )
        self.free = grouped(
            among(connection, FreeLineRow, house, "purchase_order", ids),
            lambda row: row.purchase_order,
        )
        self.credits = {row.id: row for row in every(connection, CreditRow, house=house)}
        receipts = every(connection, ReceiptRow, house=house, supplier=supplier)
        self.receipts = {row.command: row for row in receipts}
        self._by_order = grouped(receipts, lambda row: row.purchase_order or "")
        items = {row.item for row in self.packs.values()} | {row.item for row in receipts}
        rows = among(connection, ItemRow, house, "id", list(items))
        self.measured = {row.id: row.measured for row in rows}

    def of_order(self, order: str) -> list[Came]:
        """What came of an order: of each of its lines, and beside them in place of another."""
        row = self.orders[order]
        receipts = self._by_order.get(order, [])
        found = [self._of_line(row, line, receipts) for line in self.lines.get(order, ())]
        lines = {line.pack for line in self.lines.get(order, ())}
        return found + [
            came
            for receipt in receipts
            if receipt.instead or receipt.pack not in lines
            for came in self._beside(receipt)
        ]

    def without_order(self) -> list[Came]:
        """What this supplier delivered and nobody had ordered."""
        return [came for receipt in self._by_order.get("", ()) for came in self._beside(receipt)]

    def amount(self, pack: PackRow, packs: int) -> int:
        """How much so many packs are; of what nobody counts in thousandths of a pack."""
        return packs * self.size(pack)

    def size(self, pack: PackRow) -> int:
        """How much one pack is."""
        counted = self.measured.get(pack.item, True) and pack.quantity
        return pack.quantity if counted else A_PACK

    def has_come(self, order: str) -> bool:
        """Whether anything of an order was taken in."""
        return any(came.came for came in self.of_order(order))

    def _of_line(self, order: OrderRow, line: OrderLineRow, receipts: Sequence[ReceiptRow]) -> Came:
        source = f"{order.id}|{line.pack}"
        price, price_from = self.prices.of_order(order, line.pack)
        ordered, came = line.quantity, line.received
        if not self.measured.get(line.item, True) or not line.quantity:
            ordered = line.packs * A_PACK
            whole = line.closed and source not in self.credits
            came = ordered if whole else 0
        own = [row.command for row in receipts if (row.instead or row.pack) == line.pack]
        return Came(
            source=source,
            order=order.id,
            item=line.item,
            pack=line.pack,
            came=came,
            missing=max(0, ordered - came),
            price=price,
            price_from=price_from,
            of_pack=max(1, ordered // line.packs),
            receipts=tuple(own),
        )

    def _beside(self, receipt: ReceiptRow) -> Iterator[Came]:
        """What a receipt took in beside what was ordered, of what the supplier sells in packs."""
        pack = self.packs.get(receipt.pack or "") or self._smallest(receipt.item)
        if pack is None or receipt.verdict == "refuse":
            return
        counted = self.measured.get(receipt.item, True)
        yield Came(
            source=receipt.batch,
            order=receipt.purchase_order,
            item=receipt.item,
            pack=pack.id,
            came=receipt.quantity if counted else (receipt.packs or 1) * A_PACK,
            missing=0,
            price=self.prices.at(pack.id, receipt.at),
            price_from="last_price",
            of_pack=max(1, self.size(pack)),
            receipts=(receipt.command,),
        )

    def _smallest(self, item: str) -> PackRow | None:
        sold = [row for row in self.packs.values() if row.item == item]
        return min(sold, key=lambda row: (row.quantity, row.id), default=None)
