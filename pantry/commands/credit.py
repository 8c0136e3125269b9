"""Credits: opened by what came short or an invoice, recorded when the supplier's note has come."""

from datetime import datetime

from pantry.commands import base
from pantry.commands.decisions import RecordCredit
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.rows import add, every, find, remove
from pantry.records.tables import CreditRow, OrderLineRow, OrderRow, PackRow
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare

CREDIT_UNKNOWN = declare("credit_unknown", "No credit of that id is expected.")
CREDIT_RECORDED = declare("credit_recorded", "The credit has been recorded already.")
NOTE_MISSING = declare("note_missing", "A credit needs its note, or a reason to write it off.")
CREDIT_FOREIGN = declare("credit_foreign", "The note is not in the house's currency.")


def record_credit(books: Books, given: Given[RecordCredit]) -> None:
    """Write down the supplier's credit note, or that the credit is written off and why.

    Raises:
        NotThere: `credit_unknown`.
        NotNow: `credit_recorded`.
        Moved: `base_moved`.
        UnreadableInput: `note_missing`, `credit_foreign`.
    """
    body = given.body
    row = named(books, body.credit)
    base.check(books, given, row, f"The credit {row.id}")
    refuse_recorded(row)
    _check_note(books, body)
    base.next_version(
        books,
        row,
        "credit",
        settled_at=books.now,
        settled_by=given.person,
        amount=body.amount.minor if body.amount else None,
        note=body.note,
        reason=body.reason,
    )


def named(books: Books, credit: str, field: str = "body.credit") -> CreditRow:
    """The credit of that id, or `credit_unknown`."""
    row = find(books.connection, CreditRow, house=books.id, id=credit)
    if row is None:
        raise NotThere(
            CREDIT_UNKNOWN,
            f"No credit {credit!r} is expected.",
            "Read the open credits again.",
            value=credit,
            field=field,
        )
    return row


def refuse_recorded(row: CreditRow, field: str = "body.credit") -> None:
    """See to it that a credit is still open.

    Raises:
        NotNow: `credit_recorded`.
    """
    if row.settled_at is not None:
        raise NotNow(
            CREDIT_RECORDED,
            f"{row.settled_by} recorded it already.",
            "Nothing is left to do.",
            value=row.id,
            field=field,
        )


def _check_note(books: Books, body: RecordCredit) -> None:
    is_noted = body.amount is not None and bool(body.note)
    is_written_off = body.amount is None and not body.note and bool(body.reason)
    if not is_noted and not is_written_off:
        raise UnreadableInput(
            NOTE_MISSING,
            "It is neither a note with its amount and number, nor written off for a reason.",
            "Give the amount and the number of the note, or only a reason to write it off.",
            field="body.note",
        )
    if body.amount and body.amount.currency != books.house.currency:
        raise UnreadableInput(
            CREDIT_FOREIGN,
            f"The note is in {body.amount.currency}, the house reckons in {books.house.currency}.",
            f"Give its amount in {books.house.currency}.",
            value=body.amount.currency,
            field="body.amount.currency",
        )


def expect(books: Books, order: OrderRow, line: OrderLineRow, at: datetime) -> None:
    """A credit is expected for what does not come of a line, unless it is expected already.

    It is open since it did not come, however late that is handed in, and reckoned by the pack's
    price as it stands: what the supplier will have charged.
    """
    identity = f"{order.id}|{line.pack}"
    if find(books.connection, CreditRow, house=books.id, id=identity):
        return
    pack = find(books.connection, PackRow, house=books.id, id=line.pack)
    row = CreditRow(
        house=books.id,
        id=identity,
        purchase_order=order.id,
        pack=line.pack,
        item=line.item,
        supplier=order.supplier,
        cost=line.packs * pack.price if pack else 0,
        opened_at=at,
        opened_by=books.command,
        last_command=books.command,
    )
    add(books.connection, row)
    books.note("credit", identity)


def opened_by(books: Books, command: str) -> list[CreditRow]:
    """The credits that a command made expected."""
    return every(books.connection, CreditRow, house=books.id, opened_by=command)


def of_line(books: Books, line: OrderLineRow) -> CreditRow | None:
    """The credit that is expected, or was recorded, of a line."""
    same = {"house": books.id, "purchase_order": line.purchase_order, "pack": line.pack}
    return find(books.connection, CreditRow, **same)


def forget(books: Books, row: CreditRow) -> None:
    """No credit is expected after all: what opened it is taken back."""
    remove(books.connection, CreditRow, house=books.id, id=row.id)
    books.note("credit", row.id)
