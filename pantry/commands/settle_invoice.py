"""What is agreed of an invoice's differences, and withdrawing an invoice."""

from pantry.commands import base, credit
from pantry.commands.given import Given
from pantry.commands.invoice_decisions import AgreedPart, SettleInvoice, WithdrawInvoice
from pantry.records.books import Books
from pantry.records.read.invoices import Billing
from pantry.records.rows import add, every, find, one, remove
from pantry.records.tables import (
    CreditRow,
    InvoiceAgreedRow,
    InvoiceCreditRow,
    InvoiceLineRow,
    InvoiceRow,
    ItemRow,
    OrderLineRow,
    OrderRow,
)
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare
from pantry.rules.invoiced import SHORT, Difference

INVOICE_UNKNOWN = declare("invoice_unknown", "No invoice of that id is recorded.")
INVOICE_WITHDRAWN = declare("invoice_withdrawn", "The invoice was withdrawn.")
DIFFERENCE_UNKNOWN = declare("difference_unknown", "The invoice has no such difference.")
NOTHING_TO_CREDIT = declare("nothing_to_credit", "Nothing is billed too much.")
INVOICE_CREDITED = declare("invoice_credited", "A credit that an invoice led to is recorded.")

_SAID = {
    "price": "{item} was billed dearer than agreed",
    "not_received": "{item} was billed and did not come",
    "more_than_received": "More {item} was billed than came",
    "charge": "The charge for delivery was higher than agreed",
    "minimum": "The charge for a small order was higher than agreed",
    "in_words": "{words} was billed and is not in the books",
    "credit_other": "Less was taken off than was owed",
}


def settle_invoice(books: Books, given: Given[SettleInvoice]) -> None:
    """Write down that a difference is paid as it is, or that a credit is asked for.

    The last answer counts; a credit that an earlier one asked for is expected no more.

    Raises:
        NotThere: `invoice_unknown`, `difference_unknown`.
        NotNow: `invoice_withdrawn`, `credit_recorded`, `invoice_credited`.
        Moved: `base_moved`.
        UnreadableInput: `nothing_to_credit`.
    """
    row = _standing(books, given.body.invoice)
    base.check(books, given, row, f"The invoice {row.number}")
    billing = Billing(books.connection, books.id, row.supplier, books.zone)
    known = {each.key: each for each in billing.matched[row.id].differences}
    for number, part in enumerate(given.body.differences):
        field = f"body.differences[{number}]"
        difference = known.get(part.difference)
        if difference is None:
            raise NotThere(
                DIFFERENCE_UNKNOWN,
                f"The invoice {row.number} has no difference {part.difference!r}.",
                "Read its differences again: something may have come since.",
                value=part.difference,
                field=f"{field}.difference",
            )
        _forget(books, row, difference.key)
        if part.agreed == "credit":
            _ask_for_credit(books, row, difference, part, field)
        agreed = InvoiceAgreedRow(
            house=books.id,
            invoice=row.id,
            difference=difference.key,
            amount=difference.amount,
            agreed=part.agreed,
            words=(part.words or "").strip() or None,
            command=given.id,
            person=given.person,
            at=given.at,
        )
        add(books.connection, agreed)
    base.next_version(books, row, "invoice")


def withdraw_invoice(books: Books, given: Given[WithdrawInvoice]) -> None:
    """Let an invoice count no more: its orders may be billed, and what it took off is owed again.

    Raises:
        NotThere: `invoice_unknown`.
        NotNow: `invoice_withdrawn`, `invoice_credited`.
        Moved: `base_moved`.
    """
    row = _standing(books, given.body.invoice)
    base.check(books, given, row, f"The invoice {row.number}")
    for agreed in every(books.connection, InvoiceAgreedRow, house=books.id, invoice=row.id):
        _forget(books, row, agreed.difference)
    for each in every(books.connection, InvoiceCreditRow, house=books.id, invoice=row.id):
        if each.credit is not None:
            owed = credit.named(books, each.credit)
            open_again = {"settled_at": None, "settled_by": None, "amount": None, "note": None}
            base.next_version(books, owed, "credit", **open_again)
    base.next_version(
        books,
        row,
        "invoice",
        withdrawn_at=given.at,
        withdrawn_by=given.person,
        withdrawn_because=given.body.reason.strip(),
    )


def _standing(books: Books, invoice: str) -> InvoiceRow:
    row = find(books.connection, InvoiceRow, house=books.id, id=invoice)
    if row is None:
        raise NotThere(
            INVOICE_UNKNOWN,
            f"No invoice {invoice!r} is recorded.",
            "Read the invoices again.",
            value=invoice,
            field="body.invoice",
        )
    if row.withdrawn_at is not None:
        raise NotNow(
            INVOICE_WITHDRAWN,
            f"{row.withdrawn_by} withdrew the invoice {row.number}: {row.withdrawn_because}.",
            "Record it again if it counts after all.",
            value=invoice,
            field="body.invoice",
        )
    return row


def _forget(books: Books, row: InvoiceRow, key: str) -> None:
    """Nothing is agreed of a difference, and no credit is expected because of that."""
    of = {"house": books.id, "invoice": row.id, "difference": key}
    agreed = find(books.connection, InvoiceAgreedRow, **of)
    if agreed is None:
        return
    source = key.partition(":")[2].partition(":")[2]
    for owed in credit.opened_by(books, agreed.command):
        if owed.id in (f"{row.id}|{key}", source):
            _refuse_credited(row, owed)
            credit.forget(books, owed)
    remove(books.connection, InvoiceAgreedRow, **of)


def _refuse_credited(row: InvoiceRow, owed: CreditRow) -> None:
    if owed.settled_at is not None:
        raise NotNow(
            INVOICE_CREDITED,
            f"The credit that was asked for because of the invoice {row.number} is recorded: "
            f"{owed.note or owed.reason}.",
            "Leave it as it is; or withdraw first the invoice that took the credit off.",
            value=owed.id,
            field="body.invoice",
        )


def _ask_for_credit(
    books: Books, row: InvoiceRow, difference: Difference, part: AgreedPart, field: str
) -> None:
    """Expect a credit for a difference, unless one is expected for it already."""
    if difference.amount <= 0:
        raise UnreadableInput(
            NOTHING_TO_CREDIT,
            "No more is billed there than was agreed.",
            "Say that it is paid as it is.",
            value=difference.key,
            field=f"{field}.agreed",
        )
    if difference.kind == "credit_left":
        return
    if difference.kind in SHORT and _expect_of_line(books, difference):
        return
    words = _said(books, row, difference) + (f" ({part.words.strip()})" if part.words else "")
    owed = CreditRow(
        house=books.id,
        id=f"{row.id}|{difference.key}",
        invoice=row.id,
        item=difference.item,
        words=words,
        supplier=row.supplier,
        cost=difference.amount,
        opened_at=books.now,
        opened_by=books.command,
        last_command=books.command,
    )
    add(books.connection, owed)
    books.note("credit", owed.id)


def _expect_of_line(books: Books, difference: Difference) -> bool:
    """Expect the credit of the order line that did not come whole, as goods in does."""
    order, _, pack = (difference.source or "").partition("|")
    of_line = {"house": books.id, "purchase_order": order, "pack": pack}
    line = find(books.connection, OrderLineRow, **of_line)
    if line is None:
        return False
    if owed := credit.of_line(books, line):
        credit.refuse_recorded(owed, "body.differences")
    else:
        of = one(books.connection, OrderRow, house=books.id, id=order)
        credit.expect(books, of, line, books.now)
    return True


def _said(books: Books, row: InvoiceRow, difference: Difference) -> str:
    of_line = {"house": books.id, "invoice": row.id, "line": difference.line}
    line = find(books.connection, InvoiceLineRow, **of_line)
    item = find(books.connection, ItemRow, house=books.id, id=difference.item or "")
    said = _SAID.get(difference.kind, "More was billed than agreed")
    return said.format(item=item.name if item else "", words=line.words if line else "")
