"""How an order stood before it was changed, so that a change is taken back whole (LG4)."""

import json
from typing import Any

from pantry.records.books import Books
from pantry.records.rows import add, change, every, find, one, remove
from pantry.records.tables import (
    AnsweredLineRow,
    DriverLeftRow,
    FreeLineRow,
    JournalRow,
    OrderBeforeRow,
    OrderLineRow,
    OrderRow,
    OrderSentRow,
    PackPriceRow,
    PackRow,
    SupplierAnswerRow,
)
from pantry.refusals import NotNow, declare
from pantry.rules.house_time import read_instant, write_instant

ORDER_MOVED_ON = declare("order_moved_on", "Something was done with the order since.")

KINDS = frozenset(
    {"amend_order", "cancel_order", "place_order", "record_confirmation", "send_order"}
)
"""The commands that change an order, and can be taken back."""

_KEPT_OF_LINE = ("pack", "item", "packs", "quantity")
_KEPT_OF_FREE = ("number", "words", "amount", "asked")


def keep(books: Books, order: OrderRow, kind: str) -> None:
    """Keep how an order stands, before this command makes its next version of it."""
    before = {
        "state": order.state,
        "reason": order.reason,
        "delivery_at": write_instant(order.delivery_at),
        "last_command": order.last_command,
        "lines": [_columns(line, _KEPT_OF_LINE) for line in _lines(books, order.id)],
        "free": [
            _columns(line, _KEPT_OF_FREE)
            for line in every(
                books.connection, FreeLineRow, house=books.id, purchase_order=order.id
            )
        ],
    }
    _add(books, order.id, kind, order.version + 1, before)


def keep_placed(books: Books, order: OrderRow) -> None:
    """Keep that there was no order before this command placed one."""
    _add(books, order.id, "place_order", order.version, None)


def _add(books: Books, order: str, kind: str, version: int, before: object) -> None:
    row = OrderBeforeRow(
        house=books.id,
        command=books.command,
        purchase_order=order,
        kind=kind,
        version=version,
        before=json.dumps(before),
    )
    add(books.connection, row)


def _columns(row: Any, names: tuple[str, ...]) -> dict[str, object]:  # noqa: ANN401 - a row of any table
    return {name: getattr(row, name) for name in names}


def _lines(books: Books, order: str) -> list[OrderLineRow]:
    return every(books.connection, OrderLineRow, house=books.id, purchase_order=order)


def stands(books: Books, row: JournalRow) -> bool:
    """Whether what a command made of an order still stands."""
    return find(books.connection, OrderBeforeRow, house=books.id, command=row.id) is not None


def take_back(books: Books, row: JournalRow) -> None:
    """Make an order what it was before a command, if nothing was done with it since.

    Raises:
        NotNow: `order_moved_on`.
    """
    kept = find(books.connection, OrderBeforeRow, house=books.id, command=row.id)
    if kept is None:
        return
    order = one(books.connection, OrderRow, house=books.id, id=kept.purchase_order)
    _refuse_moved_on(books, order, row)
    lines = _lines(books, order.id)
    books.touched |= {line.item for line in lines}
    before = json.loads(kept.before)
    if before is None:
        _to(books, order, state="cancelled", reason="taken back", last_command=books.command)
    else:
        _write_lines(books, order, lines, before)
        _to(
            books,
            order,
            state=before["state"],
            reason=before["reason"],
            delivery_at=read_instant(before["delivery_at"]),
            last_command=before["last_command"],
        )
    _forget(books, row)


def _refuse_moved_on(books: Books, order: OrderRow, row: JournalRow) -> None:
    of_order = {"house": books.id, "purchase_order": order.id}
    came = any(line.received for line in _lines(books, order.id))
    left = find(books.connection, DriverLeftRow, **of_order) is not None
    if order.last_command == row.id and not came and not left:
        return
    raise NotNow(
        ORDER_MOVED_ON,
        f"Something was done with the order {order.id} since.",
        "Take back first what was done last; or amend or cancel the order, and tell the supplier.",
        value=order.id,
        field="body.command",
    )


def _to(books: Books, order: OrderRow, **to: object) -> None:
    key = {"house": books.id, "id": order.id}
    change(books.connection, OrderRow, key, version=order.version + 1, **to)
    books.note("order", order.id)


def _write_lines(
    books: Books, order: OrderRow, stood: list[OrderLineRow], before: dict[str, Any]
) -> None:
    of_order: dict[str, Any] = {"house": books.id, "purchase_order": order.id}
    remove(books.connection, OrderLineRow, **of_order)
    remove(books.connection, FreeLineRow, **of_order)
    lines = [OrderLineRow(**of_order, **line) for line in before["lines"]]
    add(books.connection, *lines, *(FreeLineRow(**of_order, **line) for line in before["free"]))
    books.touched |= {line.item for line in (*stood, *lines)}


def _forget(books: Books, row: JournalRow) -> None:
    """Forget what a command wrote of an order beside its lines; its prices are as they were."""
    of_command: dict[str, Any] = {"house": books.id, "command": row.id}
    for price in every(books.connection, PackPriceRow, **of_command):
        key = {"house": books.id, "id": price.pack, "price": price.price}
        change(books.connection, PackRow, key, price=price.before)
        books.note("pack", price.pack)
    for model in (
        OrderBeforeRow,
        OrderSentRow,
        SupplierAnswerRow,
        AnsweredLineRow,
        PackPriceRow,
    ):
        remove(books.connection, model, **of_command)
