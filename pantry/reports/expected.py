"""What is expected at the back door: open orders, line by line, and what each is for.

No price stands here: whoever receives it need not know what it cost (SY10).
"""

from collections.abc import Mapping
from datetime import datetime

from pantry.records.rows import among, every
from pantry.records.tables import DriverLeftRow, FreeLineRow, ItemRow, OrderLineRow, OrderRow
from pantry.reports.coverage_rows import Projected
from pantry.reports.order_given import substitution_of
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.supply import Pack

_MOST_DRIVERS = 3

OpenOrder = tuple[OrderRow, list[OrderLineRow]]
"""An order with its lines."""


def expected(view: View) -> list[Row]:
    """A row for each open order, by delivery; those that should have come already come first.

    `outstanding` is what of a line is still awaited, `for` the confirmed services that are given
    of it, by the time at which they want it (AL1), `wanted` each of them with the last instant for
    which it wants it: what keeps shorter is short-dated. `in_words` is what is ordered that is no
    item, `drivers` are who drove for the supplier,
    the last one first.
    """
    rows = {row.id: row for row in every(view.connection, ItemRow, house=view.id)}
    packs = {pack.id: pack for pack in view.packs}
    wanted = _services_by_line(view)
    drivers = _drivers(view)
    free = every(view.connection, FreeLineRow, house=view.id)
    return [
        {
            "order": order.id,
            "supplier": view.supplier_names[order.supplier],
            "supplier_id": order.supplier,
            "at": instant(order.delivery_at),
            "version": order.version,
            "substitution": substitution_of(view, order.supplier),
            "drivers": drivers.get(order.supplier, []),
            "lines": [
                _line(view, line, packs[line.pack], rows[line.item].area)
                | _for(wanted.get(f"{order.id}|{line.pack}", {}))
                for line in lines
            ],
            "in_words": [
                f"{line.amount}: {line.words}" if line.amount else line.words
                for line in free
                if line.purchase_order == order.id
            ],
        }
        for order, lines in open_orders(view)
    ]


def _drivers(view: View) -> Mapping[str, list[str]]:
    """By supplier, the names of its drivers, the last one first."""
    found: dict[str, list[str]] = {}
    rows = every(view.connection, DriverLeftRow, house=view.id)
    for row in sorted(rows, key=lambda row: (row.at, row.command), reverse=True):
        names = found.setdefault(row.supplier, [])
        if row.driver and row.driver not in names and len(names) < _MOST_DRIVERS:
            names.append(row.driver)
    return found


def open_orders(view: View) -> list[OpenOrder]:
    """Every open order with its lines, by delivery."""
    orders = every(view.connection, OrderRow, house=view.id, state="open")
    ids = [order.id for order in orders]
    lines: dict[str, list[OrderLineRow]] = {}
    for line in among(view.connection, OrderLineRow, view.id, "purchase_order", ids):
        lines.setdefault(line.purchase_order, []).append(line)
    by_delivery = sorted(orders, key=lambda order: (order.delivery_at, order.id))
    return [(order, lines.get(order.id, [])) for order in by_delivery]


def outstanding(line: OrderLineRow) -> int:
    """What of a line is still awaited, in thousandths: nothing once it is closed."""
    return 0 if line.closed else max(0, line.quantity - line.received)


def _services_by_line(view: View) -> Mapping[str, Mapping[str, datetime]]:
    """By `ORDER|PACK` the services given of each line on its way, with the last instant of each."""
    found = Projected(view)
    of_need = {need.id: need for need in found.confirmed_needs}
    picks = [pick for of_item in found.confirmed_picks.values() for pick in of_item]
    services: dict[str, dict[str, datetime]] = {}
    for pick in sorted(picks, key=lambda pick: (of_need[pick.need].wanted_by, pick.need)):
        need, of_line = of_need[pick.need], services.setdefault(pick.source, {})
        of_line[need.service] = max(need.until, of_line.get(need.service, need.until))
    return services


def _for(services: Mapping[str, datetime]) -> Row:
    wanted = [{"service": service, "until": instant(at)} for service, at in services.items()]
    return {"for": list(services), "wanted": wanted}


def _line(view: View, line: OrderLineRow, pack: Pack, area: str | None) -> Row:
    item = view.items[line.item]
    return {
        "item": item.name,
        "item_id": item.id,
        "pack": pack.name,
        "pack_id": pack.id,
        "packs": line.packs,
        "quantity": amount(line.quantity, item),
        "received": amount(line.received, item),
        "outstanding": amount(outstanding(line), item),
        "area": view.areas.get(area) if area else None,
        "area_id": area,
        "gtin": pack.gtin,
        "counted": item.measured,
        "high_risk": item.high_risk,
        "life_on_arrival_days": pack.life_on_arrival_days,
    }
