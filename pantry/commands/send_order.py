"""Write down that an order was given to its supplier: how, to whom, by whom; once."""

from pantry.commands import base, order_before, orders
from pantry.commands.given import Given
from pantry.commands.order_decisions import SendOrder
from pantry.records.books import Books
from pantry.records.read import ordering
from pantry.records.rows import add
from pantry.records.tables import OrderSentRow
from pantry.refusals import NotNow, declare

SENT_ALREADY = declare("sent_already", "The order was sent already as it stands.")


def send_order(books: Books, given: Given[SendOrder]) -> None:
    """Keep that an open order was sent as it stands; after it is amended it may be sent again.

    Raises:
        NotThere: `order_unknown`.
        NotNow: `order_state`, `sent_already`.
        Moved: `base_moved`.
    """
    body = given.body
    order = orders.open_order(books, given, body.order)
    sent = ordering.sent_as_it_stands(books.connection, books.id, order.id)
    if sent is not None:
        raise NotNow(
            SENT_ALREADY,
            f"{sent.person} sent the order {order.id} to {sent.to_whom} already, as it stands.",
            "Nothing is left to send; an amended order is sent again.",
            value=order.id,
            field="body.order",
        )
    order_before.keep(books, order, "send_order")
    after = base.next_version(books, order, "order")
    row = OrderSentRow(
        house=books.id,
        command=given.id,
        purchase_order=order.id,
        version=after.version,
        how=body.how,
        to_whom=body.to_whom.strip(),
        words=(body.words or "").strip() or None,
        person=given.person,
        at=given.at,
    )
    add(books.connection, row)
