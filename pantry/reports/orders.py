"""Orders as they stand: open ones, and those of the last two weeks."""

from datetime import datetime, timedelta

from pantry.records.rows import among, every, find
from pantry.records.tables import (
    AnsweredLineRow,
    FreeLineRow,
    OrderBeforeRow,
    OrderLineRow,
    OrderRow,
    OrderSentRow,
    PackRow,
    SupplierAnswerRow,
    SupplierRow,
)
from pantry.refusals import NotThere, declare
from pantry.reports.order_given import substitution_of
from pantry.reports.order_text import free_from, order_text
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.standing_orders import standing_as_they_are
from pantry.reports.view import View
from pantry.rules.deliveries import coming

ORDER_NOT_THERE = declare("order_not_there", "No order has that id.")

BACK = timedelta(days=14)
"""So far back orders that are done with are told."""


def orders(view: View) -> list[Row]:
    """A row for each order, by its delivery, with its lines, sendings and answers."""
    told = [
        row
        for row in every(view.connection, OrderRow, house=view.id)
        if row.state == "open" or row.delivery_at >= view.now - BACK
    ]
    found = _Found(view, [row.id for row in told])
    return [found.row(row) for row in sorted(told, key=lambda row: (row.delivery_at, row.id))]


def one_order(view: View, name: str) -> Row:
    """The order of that id, however old.

    Raises:
        NotThere: `order_not_there`.
    """
    row = find(view.connection, OrderRow, house=view.id, id=name)
    if row is None:
        raise NotThere(
            ORDER_NOT_THERE,
            f"There is no order {name!r}.",
            "Ask for one by its id, as the report of orders has it.",
            value=name,
            field="order",
        )
    return _Found(view, [name]).row(row)


class _Found:
    """What is kept of some orders, read once for all of them."""

    def __init__(self, view: View, ids: list[str]) -> None:
        self.view = view
        self.packs = {row.id: row for row in every(view.connection, PackRow, house=view.id)}
        suppliers = every(view.connection, SupplierRow, house=view.id)
        self.emails = {row.id: row.email for row in suppliers}
        self.lines = among(view.connection, OrderLineRow, view.id, "purchase_order", ids)
        self.free = among(view.connection, FreeLineRow, view.id, "purchase_order", ids)
        self.sent = among(view.connection, OrderSentRow, view.id, "purchase_order", ids)
        self.answers = among(view.connection, SupplierAnswerRow, view.id, "purchase_order", ids)
        self.before = among(view.connection, OrderBeforeRow, view.id, "purchase_order", ids)
        commands = [row.command for row in self.answers]
        self.standing = standing_as_they_are(view)
        self.answered = among(view.connection, AnsweredLineRow, view.id, "command", commands)

    def row(self, order: OrderRow) -> Row:
        view = self.view
        supplier = view.suppliers[order.supplier]
        lines = [row for row in self.lines if row.purchase_order == order.id]
        told = {
            "order": order.id,
            "supplier": supplier.name,
            "supplier_id": order.supplier,
            "version": order.version,
            "state": order.state,
            "reason": order.reason,
            "delivery": instant(order.delivery_at),
            "cutoff": instant(cut_off_of(view, order.supplier, order.delivery_at)),
            "lines": [self._line(row) for row in lines],
            "free": [
                {"words": row.words, "amount": row.amount, "asked": row.asked}
                for row in self.free
                if row.purchase_order == order.id
            ],
            "goods": money(sum(row.packs * self._price(row.pack) for row in lines), view),
            "charge": money(supplier.charge, view),
            "minimum": money(supplier.minimum, view),
            "substitution": substitution_of(view, order.supplier),
            "standing": order.id in self.standing,
            "sent": self._sent(order.id),
            "answers": [self._answer(row) for row in self._answers(order.id)],
        }
        return told | self._to_be_sent(order, told)

    def _to_be_sent(self, order: OrderRow, told: Row) -> Row:
        terms = self.view.terms.get(order.supplier)
        return {
            "text": order_text(self.view, told, order.delivery_at),
            "email": self.emails.get(order.supplier),
            "order_given": terms.order_given if terms else None,
            "order_words": terms.order_words if terms else None,
        }

    def _price(self, pack: str) -> int:
        row = self.packs.get(pack)
        return row.price if row else 0

    def _line(self, row: OrderLineRow) -> Row:
        item = self.view.items[row.item]
        return {
            "item": item.name,
            "item_id": item.id,
            "pack": self.view.pack_names.get(row.pack, row.pack),
            "pack_id": row.pack,
            "packs": row.packs,
            "quantity": amount(row.quantity, item),
            "counted": item.measured,
            "received": amount(row.received, item),
            "price": money(self._price(row.pack), self.view),
            "cost": money(row.packs * self._price(row.pack), self.view),
            "free_from": free_from(item.name, self.view.pack_names.get(row.pack, "")),
        }

    def _sent(self, order: str) -> list[Row]:
        amended = [
            row.version
            for row in self.before
            if row.purchase_order == order and row.kind == "amend_order"
        ]
        found = [row for row in self.sent if row.purchase_order == order]
        return [
            {
                "command": row.command,
                "how": row.how,
                "to_whom": row.to_whom,
                "words": row.words,
                "person": row.person,
                "at": instant(row.at),
                "stands": all(row.version > version for version in amended),
            }
            for row in sorted(found, key=lambda row: row.version)
        ]

    def _answers(self, order: str) -> list[SupplierAnswerRow]:
        found = [row for row in self.answers if row.purchase_order == order]
        return sorted(found, key=lambda row: (row.at, row.command))

    def _answer(self, row: SupplierAnswerRow) -> Row:
        lines = [line for line in self.answered if line.command == row.command]
        return {
            "command": row.command,
            "said_by": row.said_by,
            "words": row.words,
            "moved_from": instant(row.moved_from),
            "person": row.person,
            "at": instant(row.at),
            "lines": [self._answered(line) for line in lines],
        }

    def _answered(self, row: AnsweredLineRow) -> Row:
        instead = self.packs.get(row.instead or "")
        pack = self.packs.get(row.pack)
        return {
            "item": self.view.item_name(pack.item) if pack else row.pack,
            "pack": pack.name if pack else row.pack,
            "ordered": row.ordered,
            "packs": row.packs,
            "instead": self.view.item_name(instead.item) if instead else None,
            "instead_packs": row.instead_packs,
            "price_before": money(row.price_before, self.view),
            "price": None if row.price is None else money(row.price, self.view),
            "words": row.words,
        }


def cut_off_of(view: View, supplier: str, delivery: datetime) -> datetime | None:
    """Until when a supplier takes orders for a delivery; None: its calendar has none then."""
    found = coming(view.suppliers[supplier], delivery, delivery, view.zone)
    return found[0].cutoff if found else None
