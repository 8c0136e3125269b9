"""The invoices of suppliers, what each should come to, and in what it differs.

Beside them stands what came and no invoice is for yet, as an invoice of it would be held against.
"""

from collections.abc import Iterator, Sequence
from datetime import timedelta

from pantry.records.read.came import CameOf
from pantry.records.read.invoices import Billing, Printed
from pantry.records.rows import every
from pantry.records.tables import (
    InvoiceCreditRow,
    InvoiceLineRow,
    ReceiptRow,
    SupplierRow,
)
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.invoiced import SHORT, Came, Difference, Matched

LOOK_BACK = timedelta(days=91)
"""Older invoices are told only while something of them is open."""


def invoices(view: View) -> list[Row]:
    """A row for each invoice that was not withdrawn, the latest first.

    `should_be` and the amounts of `differences` come to `total`. Each difference is what is billed
    less what it is held against, and names its orders, receipts and credit.
    """
    first = local_date(view.now - LOOK_BACK, view.zone)
    rows = [
        _row(view, billing, printed, matched)
        for billing in _billings(view)
        for printed in billing.printed
        for matched in (billing.matched[printed.row.id],)
        if printed.row.dated >= first or matched.differences
    ]
    told = [row for row in rows if row["state"] == "differs" or row["dated"] >= first.isoformat()]
    return sorted(told, key=lambda row: (row["dated"], row["recorded_at"]), reverse=True)


def not_billed(view: View) -> list[Row]:
    """A row for each order that came in the last quarter and no invoice is for, the oldest first.

    What came unordered has a row of its own, without an order.
    """
    rows = [row for billing in _billings(view) for row in _not_billed(view, billing)]
    return sorted(rows, key=lambda row: (row["delivery"], row["supplier"], row["order"] or ""))


def owed(view: View) -> list[Row]:
    """A row for each open credit, as it can be taken off an invoice."""
    return [
        {
            "credit": row.id,
            "supplier_id": row.supplier,
            "order": row.purchase_order,
            "pack_id": row.pack,
            "about": row.words or (view.item_name(row.item) if row.item else row.id),
            "value": money(billing.worth[row.id], view),
        }
        for billing in _billings(view)
        for row in billing.came.credits.values()
        if row.supplier == billing.supplier and row.settled_at is None and billing.worth[row.id]
    ]


def _billings(view: View) -> Iterator[Billing]:
    for row in every(view.connection, SupplierRow, house=view.id):
        yield Billing(view.connection, view.id, row.id, view.zone)


def _row(view: View, billing: Billing, printed: Printed, matched: Matched) -> Row:
    row = printed.row
    differences = [_difference(view, billing, printed, each) for each in matched.differences]
    open_ones = [each for each in differences if not each["is_settled"]]
    state = "differs" if open_ones else "settled" if differences else "agrees"
    return {
        "invoice": row.id,
        "number": row.number,
        "supplier": view.supplier_names[row.supplier],
        "supplier_id": row.supplier,
        "dated": row.dated.isoformat(),
        "recorded_at": instant(row.at),
        "person": row.person,
        "version": row.version,
        "state": state,
        "total": money(row.total, view),
        "should_be": money(matched.should_be, view),
        "difference": money(row.total - matched.should_be, view),
        "kinds": list(dict.fromkeys(each.kind for each in matched.differences)),
        "orders": list(printed.orders),
        "lines": [_line(view, billing.came, line) for line in printed.lines],
        "credits": [_taken_off(view, each) for each in printed.taken_off],
        "differences": differences,
    }


def _line(view: View, came: CameOf, line: InvoiceLineRow) -> Row:
    pack = came.packs.get(line.pack or "")
    return {
        "item": view.item_name(line.item) if line.item else None,
        "pack": pack.name if pack else line.pack,
        "packs": line.packs,
        "charge_for": line.charge_for,
        "words": line.words,
        "amount": money(line.amount, view),
    }


def _taken_off(view: View, row: InvoiceCreditRow) -> Row:
    return {"credit": row.credit, "note": row.note, "amount": money(row.amount, view)}


def _difference(
    view: View,
    billing: Billing,
    printed: Printed,
    each: Difference,
) -> Row:
    agreed, known = printed.agreed_of(each), billing.came.receipts
    credit = _credit(billing, printed, each)
    item = view.items.get(each.item or "")
    line = next((line for line in printed.lines if line.line == each.line), None)
    is_counted = item is not None and item.measured
    return {
        "difference": each.key,
        "kind": each.kind,
        "amount": money(each.amount, view),
        "billed": money(each.billed, view),
        "held_against": money(each.held_against, view),
        "line": each.line,
        "item": item.name if item else None,
        "words": line.words if line else None,
        "quantity": amount(each.quantity, item) if item and is_counted and each.quantity else None,
        "price": None if each.price is None else money(each.price, view),
        "price_from": each.price_from,
        "orders": list(each.orders),
        "receipts": [_receipt(view, known[command]) for command in each.receipts],
        "credit": credit,
        "agreed": agreed.agreed if agreed else None,
        "agreed_words": agreed.words if agreed else None,
        "agreed_by": agreed.person if agreed else None,
        "agreed_at": instant(agreed.at) if agreed else None,
        "is_settled": agreed is not None or (credit is not None and credit["is_recorded"]),
    }


def _credit(billing: Billing, printed: Printed, each: Difference) -> Row | None:
    """The credit that a difference is about, or led to."""
    named = each.credit or (each.source if each.kind in SHORT else None)
    rows = billing.came.credits
    row = rows.get(f"{printed.row.id}|{each.key}") or rows.get(named or "")
    if row is None:
        return None
    is_recorded = row.settled_at is not None and each.kind != "credit_other"
    return {"credit": row.id, "is_recorded": is_recorded, "note": row.note, "reason": row.reason}


def _receipt(view: View, row: ReceiptRow) -> Row:
    """What the back door said of a line that came."""
    batch = view.every_batch.get(row.batch)
    return {
        "command": row.command,
        "verdict": row.verdict,
        "label": batch.label if batch else None,
        "at": instant(row.at),
    }


def _not_billed(view: View, billing: Billing) -> Iterator[Row]:
    begun = set()
    for order in sorted(billing.came.orders.values(), key=lambda row: (row.delivery_at, row.id)):
        if order.id in billing.billed or order.delivery_at < view.now - LOOK_BACK:
            continue
        came = billing.came.of_order(order.id)
        if order.state != "received" and not any(each.came for each in came):
            continue
        agreed = billing.agreed_for([order.id])
        charge = 0 if order.delivery_at in begun else agreed.charge
        begun.add(order.delivery_at)
        yield _of(view, billing, order.id, came) | {
            "delivery": instant(order.delivery_at),
            "words": [row.words for row in billing.came.free.get(order.id, ())],
            "charge": money(charge, view),
        }
    for each in billing.without_order:
        at = billing.came.receipts[each.receipts[0]].at
        if at >= view.now - LOOK_BACK:
            told: Row = {"delivery": instant(at), "words": [], "charge": money(0, view)}
            yield _of(view, billing, None, [each]) | told


def _of(view: View, billing: Billing, order: str | None, came: Sequence[Came]) -> Row:
    return {
        "order": order,
        "supplier": view.supplier_names[billing.supplier],
        "supplier_id": billing.supplier,
        "lines": [_came(view, billing.came, each) for each in came],
    }


def _came(view: View, of: CameOf, each: Came) -> Row:
    item = view.items[each.item]
    receipts = [of.receipts[command] for command in each.receipts]
    held = [view.standing[row.batch].held for row in receipts if row.batch in view.standing]
    return {
        "item": item.name,
        "item_id": item.id,
        "pack": of.packs[each.pack].name if each.pack in of.packs else each.pack,
        "pack_id": each.pack,
        "counted": item.measured,
        "packs": -(-each.came // each.of_pack),
        "ordered_packs": -(-(each.came + each.missing) // each.of_pack),
        "came": amount(each.came, item) if item.measured else None,
        "missing": amount(each.missing, item) if item.measured else None,
        "on_hold": any(sum(places.values()) for places in held),
        "refused": [row.reason or "" for row in receipts if row.verdict == "refuse"],
        "price": money(each.price, view),
        "price_from": each.price_from,
        "value": money(round(each.value(each.came)), view),
    }
