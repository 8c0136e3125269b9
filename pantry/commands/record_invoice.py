"""Write down a supplier's invoice as it is printed; what it differs in is worked out when asked."""

from collections.abc import Iterable
from datetime import date

from pantry.commands import base, credit, naming, orders
from pantry.commands.given import Given
from pantry.commands.invoice_decisions import InvoiceLinePart, RecordInvoice, TakenOffPart
from pantry.commands.order_lines import order as order_named
from pantry.commands.parts import MoneyPart, OrderLinePart
from pantry.commands.prices import in_house_currency
from pantry.records.books import Books
from pantry.records.read.invoices import Billing
from pantry.records.rows import add, every
from pantry.records.tables import (
    InvoiceCreditRow,
    InvoiceLineRow,
    InvoiceOrderRow,
    InvoiceRow,
    SupplierRow,
)
from pantry.refusals import NotNow, UnreadableInput, declare
from pantry.rules.house_time import local_date

INVOICE_RECORDED = declare("invoice_recorded", "An invoice of that number is recorded already.")
INVOICE_SUM = declare("invoice_sum", "The lines of the invoice do not come to its total.")
LINE_UNCLEAR = declare("line_unclear", "An invoice's line is neither packs nor words.")
OF_ANOTHER_SUPPLIER = declare("of_another_supplier", "It is not that supplier's.")
CREDIT_TWICE = declare("credit_twice", "The same credit is taken off twice.")


def record_invoice(books: Books, given: Given[RecordInvoice]) -> None:
    """Keep an invoice with the orders it is for; a credit that it takes off is recorded by it.

    Raises:
        NotThere: an unknown supplier, item, pack, order or credit.
        NotNow: `invoice_recorded`, `credit_recorded`.
        UnreadableInput: `invoice_sum`, `line_unclear`, `of_another_supplier`, `credit_twice`,
            `currency_foreign`, `date_unreadable`.
    """
    body = given.body
    supplier = naming.supplier(books, body.supplier)
    _refuse_second(books, supplier, body.number.strip())
    billing = Billing(books.connection, books.id, supplier.id, books.zone)
    row = InvoiceRow(
        house=books.id,
        id=given.id,
        supplier=supplier.id,
        number=body.number.strip(),
        dated=naming.day(body.date, "body.date"),
        total=_minor(books, body.total, "body.total"),
        person=given.person,
        at=given.at,
        last_command=given.id,
    )
    lines = [
        _line(books, billing, supplier, row.id, number, part)
        for number, part in enumerate(body.lines)
    ]
    taken_off = [
        _taken_off(books, supplier, row.id, number, part)
        for number, part in enumerate(body.credits)
    ]
    _refuse_other_sum(row, lines, taken_off)
    named = [_order(books, supplier, name) for name in body.orders or ()]
    of = dict.fromkeys(_came_by(billing, row.dated) if body.orders is None else named)
    for_orders = (InvoiceOrderRow(house=books.id, invoice=row.id, purchase_order=id_) for id_ in of)
    add(books.connection, row, *for_orders, *lines, *taken_off)
    _record_credits(books, given, row, taken_off)
    books.note("invoice", row.id)


def _refuse_second(books: Books, supplier: SupplierRow, number: str) -> None:
    same = {"house": books.id, "supplier": supplier.id, "withdrawn_at": None}
    for row in every(books.connection, InvoiceRow, **same):
        if row.number.casefold() == number.casefold():
            raise NotNow(
                INVOICE_RECORDED,
                f"The invoice {row.number} of {supplier.name}, dated {row.dated.isoformat()}, was "
                f"recorded by {row.person} on {local_date(row.at, books.zone).isoformat()}.",
                "Look at that one; withdraw it first if it was recorded wrong.",
                value=number,
                field="body.number",
            )


def _line(
    books: Books,
    billing: Billing,
    supplier: SupplierRow,
    invoice: str,
    number: int,
    part: InvoiceLinePart,
) -> InvoiceLineRow:
    field = f"body.lines[{number}]"
    row = InvoiceLineRow(
        house=books.id,
        invoice=invoice,
        line=number,
        amount=_minor(books, part.amount, f"{field}.amount"),
    )
    if part.item and part.pack and part.packs and part.text is None:
        asked = OrderLinePart(item=part.item, pack=part.pack, packs=part.packs)
        pack = orders.pack_sold(books, supplier, asked, field)
        row.item, row.pack, row.packs = pack.item, pack.id, part.packs
        row.quantity = billing.came.amount(pack, part.packs)
    elif part.text and part.text.strip() and part.item is None:
        row.words, row.charge_for = part.text.strip(), part.charge_for
    else:
        raise UnreadableInput(
            LINE_UNCLEAR,
            f"Line {number + 1} says neither packs of an item, nor in words what it is.",
            "Give item, pack and packs, or only a text.",
            value=part.item or part.text or "",
            field=field,
        )
    return row


def _taken_off(
    books: Books, supplier: SupplierRow, invoice: str, number: int, part: TakenOffPart
) -> InvoiceCreditRow:
    field = f"body.credits[{number}]"
    if part.credit is not None:
        owed = credit.named(books, part.credit, f"{field}.credit")
        _refuse_other(supplier, owed.supplier, part.credit, f"{field}.credit")
        credit.refuse_recorded(owed, f"{field}.credit")
    return InvoiceCreditRow(
        house=books.id,
        invoice=invoice,
        line=number,
        credit=part.credit,
        note=(part.note or "").strip() or None,
        amount=_minor(books, part.amount, f"{field}.amount"),
    )


def _refuse_other(supplier: SupplierRow, of: str, named: str, field: str) -> None:
    if of != supplier.id:
        raise UnreadableInput(
            OF_ANOTHER_SUPPLIER,
            f"{named} is not {supplier.name}'s.",
            f"Name what is {supplier.name}'s, or leave it out.",
            value=named,
            field=field,
        )


def _refuse_other_sum(
    row: InvoiceRow, lines: Iterable[InvoiceLineRow], taken_off: Iterable[InvoiceCreditRow]
) -> None:
    comes_to = sum(line.amount for line in lines) - sum(each.amount for each in taken_off)
    if comes_to != row.total:
        raise UnreadableInput(
            INVOICE_SUM,
            f"The lines less what is taken off come to {comes_to} minor units, "
            f"and the total is {row.total}.",
            "Read each line of the invoice again, and its total; add a line that is missing.",
            value=str(row.total),
            field="body.total",
        )


def _order(books: Books, supplier: SupplierRow, name: str) -> str:
    row = order_named(books, name, "body.orders")
    _refuse_other(supplier, row.supplier, name, "body.orders")
    return row.id


def _came_by(billing: Billing, day: date) -> list[str]:
    """The orders that came by a day, and that no invoice is for yet."""
    return [
        order.id
        for order in billing.came.orders.values()
        if order.id not in billing.billed
        and local_date(order.delivery_at, billing.zone) <= day
        and (order.state == "received" or billing.came.has_come(order.id))
    ]


def _record_credits(
    books: Books, given: Given[RecordInvoice], row: InvoiceRow, taken_off: list[InvoiceCreditRow]
) -> None:
    """A credit that was taken off is recorded: the invoice is its note."""
    for number, each in enumerate(taken_off):
        if each.credit is None:
            continue
        field = f"body.credits[{number}].credit"
        owed = credit.named(books, each.credit, field)
        if owed.last_command == given.id:
            raise UnreadableInput(
                CREDIT_TWICE,
                f"The credit {owed.id} is taken off twice.",
                "Name each credit once, with all that was taken off for it.",
                value=owed.id,
                field=field,
            )
        base.next_version(
            books,
            owed,
            "credit",
            settled_at=books.now,
            settled_by=given.person,
            amount=each.amount,
            note=each.note or row.number,
        )


def _minor(books: Books, sum_: MoneyPart, field: str) -> int:
    return in_house_currency(books, sum_, field) or 0
