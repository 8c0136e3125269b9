"""The lines of an order for what is no item, in words; what was asked for is seen to by them."""

from collections.abc import Iterable

from pantry.commands import asked_for
from pantry.commands.order_decisions import FreeLinePart
from pantry.records.books import Books
from pantry.records.rows import add, find, remove
from pantry.records.tables import AskedForRow, FreeLineRow


def write(books: Books, order: str, parts: Iterable[FreeLinePart], person: str) -> None:
    """Write an order's free lines anew; what the back door asked for by them is seen to."""
    remove(books.connection, FreeLineRow, house=books.id, purchase_order=order)
    rows = [
        FreeLineRow(
            house=books.id,
            purchase_order=order,
            number=number,
            words=part.words.strip(),
            amount=(part.amount or "").strip() or None,
            asked=part.asked,
        )
        for number, part in enumerate(parts, start=1)
    ]
    add(books.connection, *rows)
    for row in rows:
        asked = find(books.connection, AskedForRow, house=books.id, id=row.asked or "")
        if asked is not None and asked.closed_at is None:
            asked_for.see_to(books, [asked], person, "it is ordered")
