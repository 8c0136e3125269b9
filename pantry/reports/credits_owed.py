"""The credits that suppliers owe, for what did not come or was billed otherwise than agreed."""

from collections.abc import Iterator, Sequence

from pantry.records.read.invoices import Billing
from pantry.records.rows import among, every
from pantry.records.tables import (
    CreditRow,
    DriverLeftRow,
    InvoiceRow,
    OrderLineRow,
    OrderRow,
    ReceiptRow,
)
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View


def credits_owed(view: View) -> list[Row]:
    """A row for each open credit that is worth something, the oldest first, until it is recorded.

    Of an order line `missing` is what of it has not come, `value` what that was to cost, or what
    an invoice bills for it; `refused` and `instead` why, as it was said at the back door. What an
    invoice bills otherwise than agreed is told in `words`.
    """
    rows = every(view.connection, CreditRow, house=view.id, settled_at=None)
    worth: dict[str, int] = {}
    for supplier in sorted({row.supplier for row in rows}):
        worth |= Billing(view.connection, view.id, supplier, view.zone).worth
    owed = [row for row in rows if worth[row.id]]
    told = {row["credit"]: row for row in (*_of_lines(view, owed), *_of_invoices(view, owed))}
    return [
        told[row.id] | {"value": money(worth[row.id], view)}
        for row in sorted(owed, key=lambda row: (row.opened_at, row.id))
        if row.id in told
    ]


def _of_lines(view: View, rows: Sequence[CreditRow]) -> Iterator[Row]:
    ids = [row.purchase_order for row in rows if row.purchase_order]
    lines = {
        (line.purchase_order, line.pack): line
        for line in among(view.connection, OrderLineRow, view.id, "purchase_order", ids)
    }
    orders = {order.id: order for order in among(view.connection, OrderRow, view.id, "id", ids)}
    receipts = among(view.connection, ReceiptRow, view.id, "purchase_order", ids)
    left = among(view.connection, DriverLeftRow, view.id, "purchase_order", ids)
    drivers = {row.purchase_order: row.driver for row in left if row.driver}
    for row in rows:
        line = lines.get((row.purchase_order or "", row.pack or ""))
        if line is not None:
            order = orders[line.purchase_order]
            told = _row(view, row) | _line(view, line) | _why(view, row, receipts)
            yield told | {
                "order": order.id,
                "delivery": instant(order.delivery_at),
                "driver": drivers.get(order.id),
            }


def _of_invoices(view: View, rows: Sequence[CreditRow]) -> Iterator[Row]:
    ids = [row.invoice for row in rows if row.invoice]
    numbers = {row.id: row.number for row in among(view.connection, InvoiceRow, view.id, "id", ids)}
    for row in rows:
        if row.invoice:
            yield _row(view, row) | {"invoice": numbers[row.invoice], "words": row.words}


def _row(view: View, row: CreditRow) -> Row:
    """What every credit has; what only some have stands as nothing."""
    item = view.items[row.item] if row.item else None
    return {
        "credit": row.id,
        "order": None,
        "invoice": None,
        "invoice_id": row.invoice,
        "words": None,
        "supplier": view.supplier_names[row.supplier],
        "supplier_id": row.supplier,
        "delivery": None,
        "item": item.name if item else None,
        "pack": view.pack_names.get(row.pack, row.pack) if row.pack else None,
        "packs": None,
        "counted": item is not None and item.measured,
        "ordered": None,
        "missing": None,
        "refused": [],
        "instead": [],
        "driver": None,
        "opened_at": instant(row.opened_at),
        "version": row.version,
    }


def _line(view: View, line: OrderLineRow) -> Row:
    item = view.items[line.item]
    return {
        "packs": line.packs,
        "ordered": amount(line.quantity, item),
        "missing": amount(max(0, line.quantity - line.received), item),
    }


def _why(view: View, row: CreditRow, receipts: Sequence[ReceiptRow]) -> Row:
    of_line = [each for each in receipts if row.id == _line_of(each)]
    refused = [each for each in of_line if each.verdict == "refuse"]
    came = [each for each in of_line if each.instead and each.verdict != "refuse"]
    return {
        "refused": [each.reason or "" for each in refused],
        "instead": [view.item_name(each.item) for each in came],
    }


def _line_of(receipt: ReceiptRow) -> str:
    return f"{receipt.purchase_order}|{receipt.instead or receipt.pack}"
