"""What a delivery brings, matched to the order that asked for it."""

from dataclasses import dataclass
from datetime import datetime

from pantry.commands import credit
from pantry.commands.facts import Receive
from pantry.records.books import Books
from pantry.records.rows import change, every, find, one
from pantry.records.slugs import slug
from pantry.records.tables import DriverLeftRow, OrderLineRow, OrderRow, PackRow, ReceiptRow
from pantry.refusals import NotThere, declare

ORDER_UNKNOWN = declare("order_unknown", "No open order has that id.")


@dataclass(frozen=True, slots=True)
class Ordered:
    """The line of an open order that a received line answers, and the pack it asked for."""

    order: OrderRow
    line: OrderLineRow
    pack: PackRow | None

    @property
    def source(self) -> str:
        """What plans call it while it is on its way: `ORDER|PACK`."""
        return f"{self.order.id}|{self.line.pack}"


def order(books: Books, name: str, field: str = "body.order") -> OrderRow:
    """The order of that id, or `order_unknown`."""
    row = find(books.connection, OrderRow, house=books.id, id=name)
    if row is None:
        raise NotThere(
            ORDER_UNKNOWN,
            f"There is no order {name!r}.",
            "Name it as SUPPLIER/DATE, or leave it out.",
            value=name,
            field=field,
        )
    return row


def answered(
    books: Books, body: Receive, item: str, pack: str | None, at: datetime
) -> Ordered | None:
    """The open line this delivery answers: of the order named, else due nearest to now.

    Of several packs of one item on an order the one that is named, else the first. None where
    nobody ordered it: the order that was named may not exist, or be closed.
    """
    orders = [
        row
        for row in every(books.connection, OrderRow, house=books.id, state="open")
        if body.order in (None, row.id)
        and (body.supplier is None or row.supplier == slug(body.supplier))
    ]
    for row in sorted(orders, key=lambda row: (abs(row.delivery_at - at), row.id)):
        lines = every(books.connection, OrderLineRow, house=books.id, purchase_order=row.id)
        awaited = [line for line in lines if line.item == item and not line.closed]
        line = next((line for line in awaited if _is_of(line, pack)), next(iter(awaited), None))
        if line is not None:
            asked_for = find(books.connection, PackRow, house=books.id, id=line.pack)
            return Ordered(row, line, asked_for)
    return _told_short(books, body.order, item, pack) if body.order else None


def _told_short(books: Books, order_id: str, item: str, pack: str | None) -> Ordered | None:
    """The line of an order named that was told as short, as long as its credit is open."""
    same = {"house": books.id, "purchase_order": order_id, "item": item}
    short = [
        line
        for line in every(books.connection, OrderLineRow, **same)
        if is_short(line) and _has_open_credit(books, line)
    ]
    line = next((line for line in short if _is_of(line, pack)), next(iter(short), None))
    if line is None:
        return None
    row = one(books.connection, OrderRow, house=books.id, id=order_id)
    return Ordered(row, line, find(books.connection, PackRow, house=books.id, id=line.pack))


def is_short(line: OrderLineRow) -> bool:
    """Whether less came of a line than was ordered; of what nobody counts that is not known."""
    return not line.quantity or line.received < line.quantity


def _has_open_credit(books: Books, line: OrderLineRow) -> bool:
    owed = credit.of_line(books, line)
    return owed is not None and owed.settled_at is None


def _is_of(line: OrderLineRow, pack: str | None) -> bool:
    """Whether a line asked for a pack, named by its id or as its supplier calls it."""
    return pack is not None and (line.pack == pack or line.pack.rpartition("/")[2] == slug(pack))


def came(books: Books, ordered: Ordered, quantity: int) -> None:
    """Count what came of a line; an order of which nothing is awaited any more is received.

    Of what nobody counts there is no quantity: it came whole (MS3).
    """
    line = ordered.line
    key = {"house": books.id, "purchase_order": line.purchase_order, "pack": line.pack}
    received = line.received + quantity if quantity else line.quantity
    closed = line.closed or received >= line.quantity
    change(books.connection, OrderLineRow, key, received=received, closed=closed)
    close_if_done(books, ordered.order.id)


def replaced(books: Books, ordered: Ordered, at: datetime) -> None:
    """Another thing came in place of a line: no more of it is awaited, and a credit is."""
    set_closed(books, ordered.line, closed=True)
    credit.expect(books, ordered.order, ordered.line, at)
    close_if_done(books, ordered.order.id)


def set_closed(books: Books, line: OrderLineRow, *, closed: bool) -> None:
    """Whether anything more is awaited of a line."""
    key = {"house": books.id, "purchase_order": line.purchase_order, "pack": line.pack}
    change(books.connection, OrderLineRow, key, closed=closed)


def forget_credits(books: Books, command: str) -> None:
    """What a command made expected as a credit is awaited again as goods."""
    for owed in credit.opened_by(books, command):
        credit.forget(books, owed)
        key = {"house": books.id, "purchase_order": owed.purchase_order, "pack": owed.pack}
        line = find(books.connection, OrderLineRow, **key)
        if line is not None:
            set_closed(books, line, closed=not is_short(line))
            books.touched.add(line.item)


def close_if_done(books: Books, order_id: str) -> None:
    """An order whose every line is closed is received; one with an open line is open.

    Of one that has only lines in words nothing is counted: it is received once the driver has left.
    """
    of_order = {"house": books.id, "purchase_order": order_id}
    lines = every(books.connection, OrderLineRow, **of_order)
    left = find(books.connection, DriverLeftRow, **of_order) is not None
    state = "received" if (all(line.closed for line in lines) if lines else left) else "open"
    row = one(books.connection, OrderRow, house=books.id, id=order_id)
    if row.state not in {state, "cancelled"}:
        change(books.connection, OrderRow, {"house": books.id, "id": order_id}, state=state)
    books.note("order", order_id)


def await_again(books: Books, receipt: ReceiptRow) -> None:
    """What a receipt that is taken back had counted of its order's line is awaited again.

    So is the line that it was to replace.
    """
    pack = receipt.instead or receipt.pack
    key = {"house": books.id, "purchase_order": receipt.purchase_order, "pack": pack}
    line = find(books.connection, OrderLineRow, **key)
    if line is None or receipt.verdict == "refuse" or (receipt.instead and not receipt.replaces):
        return
    came = 0 if receipt.instead else receipt.quantity or line.received
    received = max(0, line.received - came)
    closed = received >= line.quantity or credit.of_line(books, line) is not None
    change(books.connection, OrderLineRow, key, received=received, closed=closed)
    close_if_done(books, line.purchase_order)
