"""Place, amend and cancel an order; what is on its way covers needs from then on."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from pantry.commands import base, free_lines, naming, order_before, order_lines
from pantry.commands.given import Given
from pantry.commands.order_decisions import AmendOrder, CancelOrder, PlaceOrder
from pantry.commands.parts import OrderLinePart
from pantry.records.books import Books
from pantry.records.read import supply
from pantry.records.rows import add, every, find, remove
from pantry.records.slugs import slug
from pantry.records.tables import FreeLineRow, OrderLineRow, OrderRow, PackRow, SupplierRow
from pantry.refusals import NotNow, NotThere, Refusal, UnreadableInput, declare
from pantry.rules.deliveries import Delivery, coming
from pantry.rules.house_time import end_of_day, local_date, read_instant, start_of_day

NO_DELIVERY_THEN = declare("no_delivery_then", "The supplier does not deliver on that date.")
CUT_OFF_PASSED = declare("cut_off_passed", "The supplier's cut-off for that delivery has passed.")
PACK_UNKNOWN = declare("pack_unknown", "The supplier does not sell the item in that pack.")
PACKS_NOTHING = declare("packs_nothing", "An order line needs at least one pack.")
ORDER_STATE = declare("order_state", "The order's state does not allow it.")
LINES_MISSING = declare("lines_missing", "An order needs at least one line.")

_LOOK_AHEAD = timedelta(days=60)


def place_order(books: Books, given: Given[PlaceOrder]) -> None:
    """Write an order for one delivery of a supplier.

    It is taken on the supplier as it stands: its calendar, and what was ordered of it already, so
    that two people who have not seen each other's order do not order twice. At a desk it was placed
    when it says; one from an outbox reaches nobody before it is handed in.

    Raises:
        NotThere: an unknown supplier, item or pack, `no_delivery_then`.
        NotNow: `cut_off_passed`, unless the supplier agreed.
        Moved: `base_moved`.
        UnreadableInput: `packs_nothing`, `lines_missing`.
    """
    body = given.body
    supplier = naming.supplier(books, body.supplier)
    base.check(books, given, supplier, supplier.name)
    delivery = _delivery(books, supplier, body.delivery)
    if delivery.cutoff < _given_at(books, given) and not body.agreed:
        raise NotNow(
            CUT_OFF_PASSED,
            f"{supplier.name} took orders for that delivery until "
            f"{delivery.cutoff.astimezone(books.zone):%Y-%m-%d %H:%M}.",
            "Order for a later delivery, or say that they agreed.",
            value=body.delivery,
            field="body.delivery",
        )
    identity = free_id(books, f"{supplier.id}/{local_date(delivery.at, books.zone).isoformat()}")
    lines = _lines(books, identity, supplier, body.lines, has_free=bool(body.free))
    row = OrderRow(
        house=books.id,
        id=identity,
        supplier=supplier.id,
        delivery_at=delivery.at,
        last_command=books.command,
    )
    add(books.connection, row, *lines)
    free_lines.write(books, identity, body.free or (), given.person)
    order_before.keep_placed(books, row)
    books.note("order", identity)
    base.next_version(books, supplier, "supplier")
    books.touched |= {line.item for line in lines}


def amend_order(books: Books, given: Given[AmendOrder]) -> None:
    """Write the lines of an open order anew; what came of a line already still counts.

    Until the cut-off of its delivery an order is amended rather than followed by a second one.

    Raises:
        NotThere: an unknown order, item or pack.
        NotNow: `order_state`; `cut_off_passed`, unless the supplier agreed.
        Moved: `base_moved`.
        UnreadableInput: `packs_nothing`, `lines_missing`.
    """
    body = given.body
    row = open_order(books, given, body.order)
    supplier = naming.supplier(books, row.supplier)
    _refuse_after_cut_off(books, given, row, supplier)
    order_before.keep(books, row, "amend_order")
    before = every(books.connection, OrderLineRow, house=books.id, purchase_order=row.id)
    came = {line.pack: line.received for line in before}
    stays = every(books.connection, FreeLineRow, house=books.id, purchase_order=row.id)
    has_free = bool(stays if body.free is None else body.free)
    lines = _lines(books, row.id, supplier, body.lines, has_free=has_free)
    for line in lines:
        line.received = came.get(line.pack, 0)
        line.closed = line.received >= line.quantity
    remove(books.connection, OrderLineRow, house=books.id, purchase_order=row.id)
    add(books.connection, *lines)
    if body.free is not None:
        free_lines.write(books, row.id, body.free, given.person)
    base.next_version(books, row, "order")
    order_lines.close_if_done(books, row.id)
    books.touched |= {line.item for line in (*before, *lines)}


def cancel_order(books: Books, given: Given[CancelOrder]) -> None:
    """Nothing more is awaited of an order.

    Raises:
        NotThere: `order_unknown`.
        NotNow: `order_state`.
        Moved: `base_moved`.
    """
    row = open_order(books, given, given.body.order)
    order_before.keep(books, row, "cancel_order")
    base.next_version(books, row, "order", state="cancelled", reason=given.body.reason)
    lines = every(books.connection, OrderLineRow, house=books.id, purchase_order=row.id)
    books.touched |= {line.item for line in lines}


def _given_at(books: Books, given: Given[Any]) -> datetime:
    """When a supplier hears of a decision at the earliest: from an outbox, once it is handed in."""
    return min(given.at, books.now) if given.at_desk else books.now


def _refuse_after_cut_off(
    books: Books, given: Given[AmendOrder], row: OrderRow, supplier: SupplierRow
) -> None:
    """An order is amended until its cut-off; one that was moved by hand has none that is known."""
    known = supply.suppliers(books.connection, books.id)[supplier.id]
    found = coming(known, row.delivery_at, row.delivery_at, books.zone)
    at = _given_at(books, given)
    if given.body.agreed or (found and at <= found[0].cutoff):
        return
    until = f"{found[0].cutoff.astimezone(books.zone):%Y-%m-%d %H:%M}" if found else "before"
    raise NotNow(
        CUT_OFF_PASSED,
        f"{supplier.name} took changes to the order {row.id} until {until}.",
        "Telephone them. Where they agree, say so with the change, and record how it was sent; "
        "or place an order for a later delivery.",
        value=row.id,
        field="body.order",
    )


def open_order(books: Books, given: Given[Any], name: str) -> OrderRow:
    """The open order of that id, at the version a decision was taken on.

    Raises:
        NotThere: `order_unknown`.
        NotNow: `order_state`.
        Moved: `base_moved`.
    """
    row = order_lines.order(books, name)
    base.check(books, given, row, f"The order {row.id}")
    if row.state != "open":
        raise NotNow(
            ORDER_STATE,
            f"The order {row.id} is {row.state}.",
            "Place a new order.",
            value=row.state,
            field="body.order",
        )
    return row


def _delivery(books: Books, row: SupplierRow, written: str) -> Delivery:
    """The supplier's delivery at that instant, or on that date of the house; the first of it."""
    first, last = _when(books, written)
    supplier = supply.suppliers(books.connection, books.id)[row.id]
    found = coming(supplier, first, last, books.zone)
    if found:
        return found[0]
    later = coming(supplier, first, first + _LOOK_AHEAD, books.zone)[:3]
    dates = ", ".join(f"{each.at.astimezone(books.zone):%a %Y-%m-%d %H:%M}" for each in later)
    raise NotThere(
        NO_DELIVERY_THEN,
        f"{row.name} brings nothing on {written}.",
        f"The next deliveries after it: {dates or 'none is known'}.",
        value=written,
        field="body.delivery",
    )


def _when(books: Books, written: str) -> tuple[datetime, datetime]:
    if "T" in written:
        try:
            instant = read_instant(written)
        except Refusal as refusal:
            raise refusal.at("body.delivery") from refusal
        return instant, instant
    day = naming.day(written, "body.delivery")
    return start_of_day(day, books.zone), end_of_day(day, books.zone)


def free_id(books: Books, wanted: str) -> str:
    """`SUPPLIER/DATE`, with a number from the second order for the same delivery on."""
    identity, number = wanted, 1
    while find(books.connection, OrderRow, house=books.id, id=identity) is not None:
        number += 1
        identity = f"{wanted}/{number}"
    return identity


def _lines(
    books: Books,
    order: str,
    supplier: SupplierRow,
    parts: Iterable[OrderLinePart],
    *,
    has_free: bool,
) -> list[OrderLineRow]:
    lines: dict[str, OrderLineRow] = {}
    for number, part in enumerate(parts):
        pack = pack_sold(books, supplier, part, f"body.lines[{number}]")
        line = lines.setdefault(
            pack.id,
            OrderLineRow(
                house=books.id,
                purchase_order=order,
                pack=pack.id,
                item=pack.item,
                packs=0,
                quantity=0,
            ),
        )
        line.packs += part.packs
        line.quantity += part.packs * pack.quantity
    if not lines and not has_free:
        raise UnreadableInput(
            LINES_MISSING, "The order has no lines.", "Order at least one pack.", field="body.lines"
        )
    return list(lines.values())


def pack_sold(books: Books, supplier: SupplierRow, part: OrderLinePart, field: str) -> PackRow:
    """The pack in which a supplier sells an item, by its name or id.

    Raises:
        NotThere: `item_unknown`, `pack_unknown`.
        UnreadableInput: `packs_nothing`.
    """
    item = naming.item(books, part.item, f"{field}.item")
    if part.packs < 1:
        raise UnreadableInput(
            PACKS_NOTHING,
            f"{part.packs} packs of {item.name} are nothing to order.",
            "Order at least one, or leave the line out.",
            value=str(part.packs),
            field=f"{field}.packs",
        )
    sold = every(books.connection, PackRow, house=books.id, supplier=supplier.id, item=item.id)
    for row in sold:
        if part.pack in (row.id, row.name) or slug(part.pack) == slug(row.name):
            return row
    raise NotThere(
        PACK_UNKNOWN,
        f"{supplier.name} does not sell {item.name} as {part.pack!r}.",
        "Sold as: " + (", ".join(row.name for row in sold) or "nothing") + ".",
        value=part.pack,
        field=f"{field}.pack",
    )
