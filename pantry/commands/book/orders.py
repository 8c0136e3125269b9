"""The sheets `orders` and `harvest`: what is on its way into the house."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from pantry.commands.book import amounts, cells
from pantry.commands.book.people import refuse_backwards
from pantry.commands.book.reading import ALREADY_THERE, Line, Reading
from pantry.commands.book.supply import pack_named
from pantry.commands.orders import NO_DELIVERY_THEN, PACK_UNKNOWN
from pantry.records.tables import HarvestRow, OrderLineRow, OrderRow
from pantry.rules.deliveries import coming
from pantry.rules.house_time import end_of_day, start_of_day
from pantry.rules.supply import Supplier

_LOOK_AHEAD = timedelta(days=60)
_NEXT = 3


@dataclass(frozen=True, slots=True)
class Ordered:
    """An order for one delivery, with its lines."""

    row: OrderRow
    lines: list[OrderLineRow]


def read_orders(reading: Reading) -> list[Ordered]:
    """Every row of `orders`; those for one delivery of a supplier are one order."""
    found: dict[str, Ordered] = {}
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("orders"):
        supplier = line.refer("supplier", reading.suppliers)
        at = _delivery(line, reading.suppliers.things.get(supplier))
        identity = f"{supplier}/{line.text('delivery_date')}"
        if identity not in found:
            _refuse_taken(line, identity)
            row = OrderRow(house=reading.house.id, id=identity, supplier=supplier, delivery_at=at)
            found[identity] = Ordered(row, [])
        ordered = _line(line, identity, supplier)
        line.once(seen, identity, ordered.pack, column="pack")
        found[identity].lines.append(ordered)
    return list(found.values())


def _refuse_taken(line: Line, identity: str) -> None:
    if identity in line.reading.known.orders:
        line.fault(
            "delivery_date",
            ALREADY_THERE,
            f"The order {identity} stands on the books already.",
            "Leave its rows out; amend the order in the program.",
        )


def _delivery(line: Line, supplier: Supplier | None) -> datetime:
    """The instant of the supplier's first delivery on that date of the house (PL2)."""
    reading = line.reading
    day = line.read("delivery_date", cells.day, None)
    if day is None or supplier is None:
        return reading.at
    first, last = start_of_day(day, reading.zone), end_of_day(day, reading.zone)
    found = coming(supplier, first, last, reading.zone)
    if found:
        return found[0].at
    if _calendar_is_sound(reading):
        later = coming(supplier, last, last + _LOOK_AHEAD, reading.zone)[:_NEXT]
        dates = ", ".join(f"{each.at.astimezone(reading.zone):%a %Y-%m-%d}" for each in later)
        line.fault(
            "delivery_date",
            NO_DELIVERY_THEN,
            f"{supplier.name} brings nothing on {day}.",
            f"The next deliveries after it: {dates or 'none is known'}.",
        )
    return reading.at


def _calendar_is_sound(reading: Reading) -> bool:
    """Whether the deliveries are known; a fault among them is not another one here."""
    files = {
        reading.book.sheets[name].file
        for name in ("deliveries", "closures")
        if name in reading.book.sheets
    }
    return all(fault.file not in files for fault in (*reading.faults, *reading.book.faults))


def _line(line: Line, order: str, supplier: str) -> OrderLineRow:
    reading = line.reading
    item = line.refer("item", reading.items)
    packs = line.read("packs", cells.whole(1), 1)
    pack = pack_named(reading, supplier, item, line.text("pack"))
    known = supplier in reading.suppliers.things and item in reading.items.things
    if pack is None and known and line.text("pack") and reading.is_whole("packs", "pack"):
        sold = _sold(reading, supplier, item)
        line.fault(
            "pack",
            PACK_UNKNOWN,
            f"{line.text('supplier')} does not sell {line.text('item')} as {line.text('pack')!r}.",
            f"Sold as: {', '.join(sold) or 'nothing'}.",
        )
    return OrderLineRow(
        house=reading.house.id,
        purchase_order=order,
        pack=pack.id if pack else "",
        item=item,
        packs=packs,
        quantity=packs * pack.quantity if pack else 0,
    )


def _sold(reading: Reading, supplier: str, item: str) -> Iterable[str]:
    return [
        pack.name
        for pack in reading.packs.values()
        if pack.supplier == supplier and pack.item == item
    ]


def read_harvest(reading: Reading) -> None:
    """Every row of `harvest`: what the garden is expected to give of an item."""
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("harvest"):
        identity = line.refer("item", reading.items)
        item = reading.items.things.get(identity)
        line.once(seen, identity, line.text("from"), column="from")
        first = line.read("from", cells.day, reading.at.date())
        last = line.read("to", cells.day, first)
        if last < first and not line.faulty & {"from", "to"}:
            refuse_backwards(line)
        reading.rows.append(
            HarvestRow(
                house=reading.house.id,
                item=identity,
                first=first,
                last=last,
                quantity=amounts.quantity(line, "quantity", item) if item else 0,
            )
        )
