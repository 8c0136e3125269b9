"""The driver has left: what did not come is short, and awaited no more."""

from pantry.commands import came_short, credit, order_lines
from pantry.commands.facts import CloseDelivery
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.rows import add, every, remove
from pantry.records.tables import DriverLeftRow, JournalRow, OrderLineRow


def close_delivery(books: Books, given: Given[CloseDelivery]) -> None:
    """Close what is still awaited of an order; a credit is expected for it and the chef hears.

    What comes of it later is still received, and the credit is so much smaller.

    Raises:
        NotThere: `order_unknown`.
    """
    order = order_lines.order(books, given.body.order)
    left = DriverLeftRow(
        house=books.id,
        command=given.id,
        purchase_order=order.id,
        supplier=order.supplier,
        driver=(given.body.driver or "").strip() or None,
        at=given.at,
    )
    add(books.connection, left)
    books.note("order", order.id)
    if order.state == "cancelled":
        return
    for line in every(books.connection, OrderLineRow, house=books.id, purchase_order=order.id):
        if not line.closed:
            order_lines.set_closed(books, line, closed=True)
            credit.expect(books, order, line, given.at)
            books.touched.add(line.item)
    order_lines.close_if_done(books, order.id)
    came_short.tell_the_chef(books, order)


def has_left(books: Books, row: JournalRow) -> bool:
    """Whether what a command said of a driver still stands."""
    return bool(every(books.connection, DriverLeftRow, house=books.id, command=row.id))


def await_again(books: Books, row: JournalRow, person: str) -> None:
    """What a delivery left short is awaited again; `person` takes it back."""
    for left in every(books.connection, DriverLeftRow, house=books.id, command=row.id):
        order_lines.forget_credits(books, row.id)
        order_lines.close_if_done(books, left.purchase_order)
        came_short.hush_if_whole(books, left.purchase_order, person)
    remove(books.connection, DriverLeftRow, house=books.id, command=row.id)
