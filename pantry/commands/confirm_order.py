"""Write down what a supplier said of an order; what does not come is planned for anew at once."""

from datetime import datetime, time, timedelta
from typing import Any

from pantry.commands import base, naming, order_before, orders, prices
from pantry.commands.given import Given
from pantry.commands.order_decisions import AnsweredLinePart, RecordConfirmation
from pantry.commands.parts import OrderLinePart
from pantry.records.books import Books
from pantry.records.rows import add, change, every, find, one, remove
from pantry.records.tables import (
    AnsweredLineRow,
    FreeLineRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    SupplierAnswerRow,
)
from pantry.refusals import NotThere, Refusal, UnreadableInput, declare
from pantry.rules.house_time import instant_of, read_instant

NOT_ORDERED = declare("not_ordered", "The order has no line of that pack.")
MORE_THAN_ORDERED = declare("more_than_ordered", "More was confirmed than was ordered.")
LINE_TWICE = declare("line_twice", "A line of the order is answered twice.")
COMES_TOO_EARLY = declare("comes_too_early", "The order would come before it was answered.")

_NOTHING_COMES = "the supplier has none of it"


def record_confirmation(books: Books, given: Given[RecordConfirmation]) -> None:
    """Keep a supplier's answer, line by line: what comes, what comes instead, at what price, when.

    A line of which less comes is made shorter, so that what is lacking is planned for anew; an
    order of which nothing is left is cancelled. Another item that comes instead is a line of its
    own: it covers nothing that the chef has not named it a substitute for.

    Raises:
        NotThere: `order_unknown`, `not_ordered`, an unknown item or pack.
        NotNow: `order_state`.
        Moved: `base_moved`.
        UnreadableInput: `more_than_ordered`, `line_twice`, `currency_foreign`, `date_unreadable`,
            `comes_too_early`.
    """
    body = given.body
    order = orders.open_order(books, given, body.order)
    comes = order.delivery_at if body.delivery is None else _comes(books, order, body.delivery)
    order_before.keep(books, order, "record_confirmation")
    lines = _of_order(books, order)
    seen: set[str] = set()
    for number, part in enumerate(body.lines):
        field = f"body.lines[{number}]"
        line = _line(books, order, part, field)
        if line.pack in seen:
            raise UnreadableInput(
                LINE_TWICE, "The line is answered twice.", "Answer it once.", field=field
            )
        seen.add(line.pack)
        _answer(books, given, order, line, part, field)
    answer = SupplierAnswerRow(
        house=books.id,
        command=given.id,
        purchase_order=order.id,
        said_by=(body.said_by or "").strip() or None,
        words=(body.words or "").strip() or None,
        moved_from=order.delivery_at if comes != order.delivery_at else None,
        person=given.person,
        at=given.at,
    )
    add(books.connection, answer)
    _move_on(books, order, comes)
    books.touched |= {line.item for line in (*lines, *_of_order(books, order))}


def _of_order(books: Books, order: OrderRow) -> list[OrderLineRow]:
    return every(books.connection, OrderLineRow, house=books.id, purchase_order=order.id)


def _move_on(books: Books, order: OrderRow, comes: datetime) -> None:
    free = every(books.connection, FreeLineRow, house=books.id, purchase_order=order.id)
    to: dict[str, Any] = {"delivery_at": comes}
    if not _of_order(books, order) and not free:
        to |= {"state": "cancelled", "reason": _NOTHING_COMES}
    base.next_version(books, order, "order", **to)


def _comes(books: Books, order: OrderRow, written: str) -> datetime:
    """When it comes: an instant, or a day at the time of day at which it was to come."""
    field = "body.delivery"
    if "T" in written:
        try:
            at = read_instant(written)
        except Refusal as refusal:
            raise refusal.at(field) from refusal
    else:
        clock: time = order.delivery_at.astimezone(books.zone).time()
        at = instant_of(naming.day(written, field), clock, books.zone)
    if at < books.now - timedelta(days=1):
        raise UnreadableInput(
            COMES_TOO_EARLY,
            f"{written} is past.",
            "Say on which day it will come.",
            value=written,
            field=field,
        )
    return at


def _line(books: Books, order: OrderRow, part: AnsweredLinePart, field: str) -> OrderLineRow:
    supplier = naming.supplier(books, order.supplier)
    asked = OrderLinePart(item=part.item, pack=part.pack, packs=1)
    pack = orders.pack_sold(books, supplier, asked, field)
    key = {"house": books.id, "purchase_order": order.id, "pack": pack.id}
    line = find(books.connection, OrderLineRow, **key)
    if line is None:
        raise NotThere(
            NOT_ORDERED,
            f"The order {order.id} has no {pack.name} of {part.item}.",
            "Answer the lines that it has.",
            value=part.pack,
            field=f"{field}.pack",
        )
    return line


def _answer(
    books: Books,
    given: Given[RecordConfirmation],
    order: OrderRow,
    line: OrderLineRow,
    part: AnsweredLinePart,
    field: str,
) -> None:
    pack = one(books.connection, PackRow, house=books.id, id=line.pack)
    packs = line.packs if part.packs is None else part.packs
    if packs > line.packs:
        raise UnreadableInput(
            MORE_THAN_ORDERED,
            f"{packs} of {line.packs} packs are confirmed.",
            "Amend the order where more is to come.",
            value=str(packs),
            field=f"{field}.packs",
        )
    price = prices.in_house_currency(books, part.price, f"{field}.price")
    row = AnsweredLineRow(
        house=books.id,
        command=given.id,
        pack=line.pack,
        ordered=line.packs,
        packs=packs,
        price_before=pack.price,
        price=price if price != pack.price else None,
        words=(part.words or "").strip() or None,
    )
    _shorten(books, line, pack, packs)
    if part.instead is not None:
        row.instead, row.instead_packs = _instead(books, order, part, field), part.instead.packs
    if row.price is not None:
        prices.changed(books, pack, row.price, given.at)
    add(books.connection, row)


def _shorten(books: Books, line: OrderLineRow, pack: PackRow, packs: int) -> None:
    key = {"house": books.id, "purchase_order": line.purchase_order, "pack": line.pack}
    if packs == 0:
        remove(books.connection, OrderLineRow, **key)
    elif packs < line.packs:
        quantity = packs * pack.quantity
        change(books.connection, OrderLineRow, key, packs=packs, quantity=quantity)


def _instead(books: Books, order: OrderRow, part: AnsweredLinePart, field: str) -> str | None:
    """The line of what comes in place of another, by its pack."""
    if part.instead is None:
        return None
    supplier = naming.supplier(books, order.supplier)
    asked = OrderLinePart(item=part.instead.item, pack=part.instead.pack, packs=part.instead.packs)
    pack = orders.pack_sold(books, supplier, asked, f"{field}.instead")
    key: dict[str, Any] = {"house": books.id, "purchase_order": order.id, "pack": pack.id}
    stood = find(books.connection, OrderLineRow, **key)
    packs = asked.packs + (stood.packs if stood else 0)
    quantity = packs * pack.quantity
    if stood:
        change(books.connection, OrderLineRow, key, packs=packs, quantity=quantity)
    else:
        line = OrderLineRow(**key, item=pack.item, packs=packs, quantity=quantity)
        add(books.connection, line)
    return pack.id
