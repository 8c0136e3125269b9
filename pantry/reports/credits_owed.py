"""The credits that suppliers owe for what did not come whole, until their notes are recorded."""

from collections.abc import Sequence

from pantry.records.rows import among, every
from pantry.records.tables import CreditRow, DriverLeftRow, OrderLineRow, OrderRow, ReceiptRow
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View
from pantry.rules.credits import credit_due


def credits_owed(view: View) -> list[Row]:
    """A row for each open credit that is worth something, the oldest first.

    `missing` is what of the line has not come, `value` what that was to cost, `refused` and
    `instead` why, as it was said at the back door.
    """
    rows = every(view.connection, CreditRow, house=view.id, settled_at=None)
    ids = [row.purchase_order for row in rows]
    lines = {
        (line.purchase_order, line.pack): line
        for line in among(view.connection, OrderLineRow, view.id, "purchase_order", ids)
    }
    orders = {order.id: order for order in among(view.connection, OrderRow, view.id, "id", ids)}
    receipts = among(view.connection, ReceiptRow, view.id, "purchase_order", ids)
    left = among(view.connection, DriverLeftRow, view.id, "purchase_order", ids)
    drivers = {row.purchase_order: row.driver for row in left if row.driver}
    found = []
    for row in sorted(rows, key=lambda row: (row.opened_at, row.id)):
        line = lines.get((row.purchase_order, row.pack))
        if line and (due := credit_due(row.cost, line.quantity, line.received)):
            order = orders[row.purchase_order]
            found.append(
                _row(view, row, line, order)
                | _why(view, row, receipts)
                | {"value": money(due, view), "driver": drivers.get(order.id)}
            )
    return found


def _row(view: View, row: CreditRow, line: OrderLineRow, order: OrderRow) -> Row:
    item = view.items[row.item]
    return {
        "credit": row.id,
        "order": order.id,
        "supplier": view.supplier_names[row.supplier],
        "delivery": instant(order.delivery_at),
        "item": item.name,
        "pack": view.pack_names.get(row.pack, row.pack),
        "packs": line.packs,
        "counted": item.measured,
        "ordered": amount(line.quantity, item),
        "missing": amount(max(0, line.quantity - line.received), item),
        "opened_at": instant(row.opened_at),
        "version": row.version,
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
