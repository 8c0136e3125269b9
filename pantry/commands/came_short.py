"""The chef hears at once of what a delivery left short, or what was refused at the door."""

from pantry.commands import credit
from pantry.records.books import Books
from pantry.records.questions import ask, close
from pantry.records.rows import every, one
from pantry.records.tables import ItemRow, OrderLineRow, OrderRow, ReceiptRow, SupplierRow
from pantry.rules.house_time import local_date

KIND = "came_short"


def tell_the_chef(books: Books, order: OrderRow) -> None:
    """Ask about an order of which something is short; what to do is told when it is read."""
    items = _short_items(books, order.id)
    if not items:
        return
    supplier = one(books.connection, SupplierRow, house=books.id, id=order.supplier)
    on = local_date(order.delivery_at, books.zone)
    names = [one(books.connection, ItemRow, house=books.id, id=item).name for item in items]
    ask(
        books,
        KIND,
        "chef",
        order.id,
        recorded=f"The delivery of {supplier.name} on {on:%a} {on.day} {on:%b} did not come whole.",
        against="Short or refused: " + ", ".join(sorted(names)) + ".",
        answers=("it is dealt with",),
    )


def hush_if_whole(books: Books, order: str, person: str) -> None:
    """Nothing is asked any more of an order of which nothing is short after all."""
    if not _short_items(books, order):
        close(books, KIND, order, "it came after all", person)


def _short_items(books: Books, order: str) -> list[str]:
    """Items of lines for which a credit is expected, or of which something was refused."""
    of_order = {"house": books.id, "purchase_order": order}
    refused = {
        row.instead or row.pack
        for row in every(books.connection, ReceiptRow, **of_order, verdict="refuse")
    }
    return sorted(
        {
            line.item
            for line in every(books.connection, OrderLineRow, **of_order)
            if _is_missing(books, line, refused)
        }
    )


def _is_missing(books: Books, line: OrderLineRow, refused: set[str | None]) -> bool:
    if line.quantity and line.received >= line.quantity:
        return False
    return line.pack in refused or credit.of_line(books, line) is not None
