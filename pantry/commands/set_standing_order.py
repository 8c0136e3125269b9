"""Set what a supplier brings of itself on its weekdays, until it is told otherwise."""

from typing import Any

from pantry.commands import base, naming, standing_orders
from pantry.commands.given import Given
from pantry.commands.order_decisions import SetStandingOrder
from pantry.commands.orders import pack_sold
from pantry.commands.set_calendar import weekday
from pantry.records.books import Books
from pantry.records.rows import add, every, remove
from pantry.records.tables import (
    DeliveryRuleRow,
    StandingLineRow,
    StandingOrderRow,
    SupplierRow,
)
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.rules.house_time import WEEKDAYS

NOTHING_COMES_ON_WEEKDAY = declare(
    "nothing_comes_on_weekday", "The supplier has no delivery on that weekday."
)
STANDING_TWICE = declare("standing_twice", "A pack stands twice on one weekday.")


def set_standing_order(books: Books, given: Given[SetStandingOrder]) -> None:
    """Write all of a supplier's standing order, and the orders that follow; no lines: it ends.

    The supplier knows: whoever gives this has agreed it with them. Orders that were written for it
    already follow, as long as nobody amended them and their cut-off is not past.

    Raises:
        NotThere: `supplier_unknown`, `item_unknown`, `pack_unknown`, `nothing_comes_on_weekday`.
        Moved: `base_moved`.
        UnreadableInput: `weekday_unreadable`, `packs_nothing`, `standing_twice`.
    """
    body = given.body
    row = naming.supplier(books, body.supplier)
    base.check(books, given, row, row.name)
    lines = _lines(books, row, body)
    key: dict[str, Any] = {"house": books.id, "supplier": row.id}
    remove(books.connection, StandingLineRow, **key)
    remove(books.connection, StandingOrderRow, **key)
    standing = StandingOrderRow(**key, when_empty=body.when_empty, person=given.person, at=given.at)
    if lines:
        add(books.connection, standing, *lines)
    standing_orders.rewrite(books, standing)
    standing_orders.write(books, standing)
    base.next_version(books, row, "supplier")


def _lines(books: Books, supplier: SupplierRow, body: SetStandingOrder) -> list[StandingLineRow]:
    rules = every(books.connection, DeliveryRuleRow, house=books.id, supplier=supplier.id)
    comes = {rule.weekday for rule in rules}
    found: list[StandingLineRow] = []

    def of(day: int) -> dict[str, Any]:
        key = {"house": books.id, "supplier": supplier.id}
        return {**key, "weekday": day, "number": len(found)}

    for number, part in enumerate(body.lines):
        field = f"body.lines[{number}]"
        pack = pack_sold(books, supplier, part, field)
        day = _weekday(supplier, comes, part.weekday, f"{field}.weekday")
        if any(line.pack == pack.id and line.weekday == day for line in found):
            raise UnreadableInput(
                STANDING_TWICE,
                f"{part.item} as {part.pack} stands twice on {WEEKDAYS[day]}.",
                "Give it once, with all its packs.",
                value=part.pack,
                field=field,
            )
        found.append(StandingLineRow(**of(day), pack=pack.id, packs=part.packs))
    for number, free in enumerate(body.free or ()):
        day = _weekday(supplier, comes, free.weekday, f"body.free[{number}].weekday")
        amount = (free.amount or "").strip() or None
        found.append(StandingLineRow(**of(day), words=free.words.strip(), amount=amount))
    return found


def _weekday(supplier: SupplierRow, comes: set[int], written: str, field: str) -> int:
    day = weekday(written, field)
    if day in comes:
        return day
    named = ", ".join(WEEKDAYS[each].capitalize() for each in sorted(comes))
    raise NotThere(
        NOTHING_COMES_ON_WEEKDAY,
        f"{supplier.name} does not come on a {WEEKDAYS[day].capitalize()}.",
        f"They come on {named}." if named else "Set their delivery days first.",
        value=written,
        field=field,
    )
