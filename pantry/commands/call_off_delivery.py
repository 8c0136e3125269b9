"""Call off a delivery: the boat does not sail, or on another day; what was on it is short."""

from collections.abc import Sequence
from datetime import date, timedelta

from pantry.commands import base, naming
from pantry.commands.decisions import CallOffDelivery
from pantry.commands.given import Given
from pantry.commands.set_calendar import reckon_deadlines
from pantry.records.books import Books
from pantry.records.read import supply
from pantry.records.rows import add, every, find, remove
from pantry.records.tables import ClosureRow, JournalRow, OrderLineRow, OrderRow
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.rules.deliveries import Delivery, coming
from pantry.rules.house_time import end_of_day, local_date, start_of_day
from pantry.rules.supply import ClosureKind

NOTHING_COMES_THEN = declare(
    "nothing_comes_then", "The supplier brings nothing on the date that is called off."
)
INSTEAD_EARLIER = declare(
    "instead_earlier", "The day on which a delivery comes instead is over, or the same day."
)


def call_off_delivery(books: Books, given: Given[CallOffDelivery]) -> None:
    """Nothing comes of a supplier on a date; open orders of it move to `instead`, or are cancelled.

    What of them is promised is planned anew, and what cannot come any more shows as a shortage.

    Raises:
        NotThere: `supplier_unknown`, `nothing_comes_then`.
        Moved: `base_moved`.
        UnreadableInput: `date_unreadable`, `instead_earlier`.
    """
    body = given.body
    row = naming.supplier(books, body.supplier)
    base.check(books, given, row, row.name)
    day = naming.day(body.date, "body.date")
    off = _on(books, row.id, day)
    if not off:
        raise NotThere(
            NOTHING_COMES_THEN,
            f"{row.name} brings nothing on {day}.",
            "Call off a day on which they come.",
            value=body.date,
            field="body.date",
        )
    instead = None if body.instead is None else naming.day(body.instead, "body.instead")
    if instead is not None and (instead == day or instead < local_date(books.now, books.zone)):
        raise UnreadableInput(
            INSTEAD_EARLIER,
            f"{instead} is no day on which it can come instead of {day}.",
            "Give a day to come, or leave it out.",
            value=str(instead),
            field="body.instead",
        )
    orders = _awaited(books, row.id, off)
    _close(books, row.id, day, instead, body.reason)
    base.next_version(books, row, "supplier")
    later = _on(books, row.id, instead) if instead else ()
    for order in orders:
        if later:
            _moved(books, order, later[0])
        else:
            _touched(books, order)
            base.next_version(books, order, "order", state="cancelled", reason=body.reason)
    reckon_deadlines(books, row.id)


def _close(books: Books, supplier: str, day: date, instead: date | None, reason: str) -> None:
    """Write that nothing comes on a day, in the place of what was said of it before."""
    kind = ClosureKind.NO_DELIVERY.value
    key = {"supplier": supplier, "on": day, "what": kind}
    if find(books.connection, ClosureRow, house=books.id, **key) is not None:
        remove(books.connection, ClosureRow, house=books.id, **key)
    closure = ClosureRow(
        house=books.id,
        supplier=supplier,
        on=day,
        what=kind,
        instead=instead,
        reason=reason,
        command=books.command,
    )
    add(books.connection, closure)


def stands(books: Books, row: JournalRow) -> bool:
    """Whether what a command called off is still called off."""
    return bool(every(books.connection, ClosureRow, house=books.id, command=row.id))


def take_back(books: Books, row: JournalRow) -> None:
    """It comes after all: its orders are awaited again, but for those changed since."""
    for closure in every(books.connection, ClosureRow, house=books.id, command=row.id):
        key = {"supplier": closure.supplier, "on": closure.on, "what": closure.what}
        remove(books.connection, ClosureRow, house=books.id, **key)
        comes = _on(books, closure.supplier, closure.on)
        for order in every(books.connection, OrderRow, house=books.id, last_command=row.id):
            if order.supplier == closure.supplier and comes:
                _moved(books, order, comes[0])
        base.next_version(books, naming.supplier(books, closure.supplier), "supplier")
        reckon_deadlines(books, closure.supplier)


def _on(books: Books, supplier: str, day: date) -> tuple[Delivery, ...]:
    known = supply.suppliers(books.connection, books.id)[supplier]
    place = known.zone or books.zone
    first, last = start_of_day(day, place), end_of_day(day, place)
    return coming(known, first, last - timedelta(seconds=1), books.zone)


def _awaited(books: Books, supplier: str, off: Sequence[Delivery]) -> list[OrderRow]:
    orders = every(books.connection, OrderRow, house=books.id, supplier=supplier, state="open")
    return [each for each in orders if each.delivery_at in {delivery.at for delivery in off}]


def _moved(books: Books, order: OrderRow, delivery: Delivery) -> None:
    _touched(books, order)
    base.next_version(books, order, "order", state="open", reason=None, delivery_at=delivery.at)


def _touched(books: Books, order: OrderRow) -> None:
    lines = every(books.connection, OrderLineRow, house=books.id, purchase_order=order.id)
    books.touched |= {line.item for line in lines}
