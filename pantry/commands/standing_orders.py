"""The orders of standing orders: written ahead by themselves, each once (PL1, PL2)."""

from collections.abc import Iterable
from datetime import timedelta

from pantry.commands import base
from pantry.commands.orders import free_id
from pantry.records.books import Books
from pantry.records.read import supply
from pantry.records.rows import add, among, change, every, find, remove
from pantry.records.tables import (
    FreeLineRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    StandingDeliveryRow,
    StandingLineRow,
    StandingOrderRow,
)
from pantry.rules.deliveries import coming
from pantry.rules.house_time import local_date
from pantry.rules.standing_orders import LOOK_AHEAD, Brought, brought


def sweep(books: Books) -> None:
    """Write the orders of the days that have come into sight since it was last looked."""
    through = local_date(books.now, books.zone) + LOOK_AHEAD
    for row in every(books.connection, StandingOrderRow, house=books.id):
        if row.through is None or row.through < through:
            write(books, row)


def write(books: Books, standing: StandingOrderRow) -> None:
    """Write an order for every delivery in sight that has none, and whose cut-off is not past.

    What was written once is not written again, whatever became of it: somebody may have told the
    supplier to bring nothing then.
    """
    key = {"house": books.id, "supplier": standing.supplier}
    lines = every(books.connection, StandingLineRow, **key)
    written = {row.on for row in every(books.connection, StandingDeliveryRow, **key)}
    supplier = supply.suppliers(books.connection, books.id).get(standing.supplier)
    weekdays = frozenset(line.weekday for line in lines)
    last = books.now + LOOK_AHEAD + timedelta(days=1)
    if supplier is not None and weekdays:
        for each in brought(supplier, weekdays, books.now, last, books.zone):
            if each.on not in written and each.delivery.cutoff >= books.now:
                _order(books, standing.supplier, each, _of_weekday(lines, each))
    through = local_date(books.now, books.zone) + LOOK_AHEAD
    change(books.connection, StandingOrderRow, key, through=through)


def rewrite(books: Books, standing: StandingOrderRow) -> None:
    """Have orders that were written already be as the standing order is now.

    Only those that are as it made them and can still be changed: what somebody amended, what has
    come or whose cut-off is past stays.
    """
    key = {"house": books.id, "supplier": standing.supplier}
    lines = every(books.connection, StandingLineRow, **key)
    known = supply.suppliers(books.connection, books.id)[standing.supplier]
    for row in every(books.connection, StandingDeliveryRow, **key):
        order = find(books.connection, OrderRow, house=books.id, id=row.purchase_order)
        if order is None or order.state != "open" or order.version != row.version:
            continue
        found = coming(known, order.delivery_at, order.delivery_at, books.zone)
        if not found or found[0].cutoff < books.now:
            continue
        _rewrite(books, row, order, [line for line in lines if line.weekday == row.on.weekday()])


def _rewrite(
    books: Books, row: StandingDeliveryRow, order: OrderRow, lines: list[StandingLineRow]
) -> None:
    of_order = {"house": books.id, "purchase_order": order.id}
    stood = every(books.connection, OrderLineRow, **of_order)
    if any(line.received for line in stood):
        return
    books.touched |= {line.item for line in stood}
    if lines:
        remove(books.connection, OrderLineRow, **of_order)
        remove(books.connection, FreeLineRow, **of_order)
        _write_lines(books, order.id, lines)
        after = base.next_version(books, order, "order")
    else:
        ended = "the standing order has ended"
        after = base.next_version(books, order, "order", state="cancelled", reason=ended)
    key = {"house": books.id, "supplier": row.supplier, "on": row.on}
    if after.state == "open":
        change(books.connection, StandingDeliveryRow, key, version=after.version)
    else:
        # it is written anew where the standing order begins again
        remove(books.connection, StandingDeliveryRow, **key)


def _of_weekday(lines: Iterable[StandingLineRow], each: Brought) -> list[StandingLineRow]:
    return [line for line in lines if line.weekday == each.on.weekday()]


def _order(books: Books, supplier: str, each: Brought, lines: list[StandingLineRow]) -> None:
    on = local_date(each.delivery.at, books.zone)
    order = OrderRow(
        house=books.id,
        id=free_id(books, f"{supplier}/{on.isoformat()}"),
        supplier=supplier,
        delivery_at=each.delivery.at,
        last_command=books.command,
    )
    delivery = StandingDeliveryRow(
        house=books.id,
        supplier=supplier,
        on=each.on,
        purchase_order=order.id,
        version=order.version,
    )
    add(books.connection, order, delivery)
    _write_lines(books, order.id, lines)
    books.note("order", order.id)


def _write_lines(books: Books, order: str, lines: list[StandingLineRow]) -> None:
    wanted = [line.pack for line in lines if line.pack is not None]
    packs = {row.id: row for row in among(books.connection, PackRow, books.id, "id", wanted)}
    of_packs = {}
    for line in lines:
        pack = packs.get(line.pack or "")
        if pack is not None:
            of_packs[pack.id] = OrderLineRow(
                house=books.id,
                purchase_order=order,
                pack=pack.id,
                item=pack.item,
                packs=line.packs,
                quantity=line.packs * pack.quantity,
            )
    in_words = [line for line in lines if line.words is not None]
    free = [
        FreeLineRow(
            house=books.id,
            purchase_order=order,
            number=number,
            words=line.words or "",
            amount=line.amount,
        )
        for number, line in enumerate(in_words, start=1)
    ]
    add(books.connection, *of_packs.values(), *free)
    books.touched |= {line.item for line in of_packs.values()}
